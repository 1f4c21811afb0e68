package selvage.web;

import io.javalin.http.Context;
import io.javalin.http.NotFoundResponse;
import java.util.regex.Pattern;

/** Ids of the ledger in addresses: whatever is none leads to nothing. */
final class LedgerIds {
  private static final Pattern ID = Pattern.compile("[0-9a-f]{32}");

  private LedgerIds() {}

  static boolean isOne(String text) {
    return text != null && ID.matcher(text).matches();
  }

  /**
   * The id in an address.
   *
   * @param what it is of, in words
   */
  static String of(Context context, String parameter, String what) {
    String id = context.pathParam(parameter);
    if (!isOne(id)) {
      throw unknown(what);
    }
    return id;
  }

  static NotFoundResponse unknown(String what) {
    return new NotFoundResponse(
        "The ledger has no " + what + " of this address. It may be the address of another ledger.");
  }
}
