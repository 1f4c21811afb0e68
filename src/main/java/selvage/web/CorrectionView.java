package selvage.web;

import java.util.List;
import java.util.Optional;
import selvage.report.InkText;
import selvage.score.Mending;

/**
 * What would mend a print.
 *
 * @param words a sentence each
 * @param patches what to send instead
 * @param complaint why it can't be told; empty where it can
 */
public record CorrectionView(List<String> words, List<Mend> patches, Optional<String> complaint) {
  /**
   * What to send for a patch.
   *
   * @param id the patch's
   * @param build its inks in words
   * @param corrected what to send instead
   * @param now ΔE00 read
   * @param after ΔE00 predicted
   * @param limit the least limit on the patch
   */
  public record Mend(
      String id, String build, String corrected, double now, double after, double limit) {}

  public CorrectionView {
    words = List.copyOf(words);
    patches = List.copyOf(patches);
  }

  static CorrectionView of(Mending mending) {
    return new CorrectionView(
        mending.words().stream()
            .filter(
                sentence ->
                    mending.patches().stream()
                        .noneMatch(mend -> sentence.startsWith(mend.patch().id() + ": ")))
            .toList(),
        mending.patches().stream()
            .map(
                mend ->
                    new Mend(
                        mend.patch().id(),
                        InkText.of(mend.patch().mixture()),
                        InkText.of(mend.corrected()),
                        mend.de00Now(),
                        mend.de00After(),
                        mend.limit()))
            .toList(),
        Optional.empty());
  }

  static CorrectionView impossible(String why) {
    return new CorrectionView(List.of(), List.of(), Optional.of(why));
  }
}
