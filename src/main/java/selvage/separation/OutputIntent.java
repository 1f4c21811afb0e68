package selvage.separation;

/** The entry of a job's output intents that speaks of printing. */
public final class OutputIntent {
  private final String identifier;
  private final String info;
  private final byte[] profile;

  OutputIntent(String identifier, String info, byte[] profile) {
    this.identifier = identifier;
    this.info = info;
    this.profile = profile;
  }

  /** The registered name of the condition, or empty. */
  public String identifier() {
    return identifier;
  }

  /** What else the entry says of the condition in words, or empty. */
  public String info() {
    return info;
  }

  /** The bytes of the embedded profile, or null where there is none. */
  public byte[] profile() {
    return profile == null ? null : profile.clone();
  }
}
