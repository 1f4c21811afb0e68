package selvage.separation;

/** Pattern, with the space that colours an uncoloured pattern, if one is given. */
final class PatternSpace extends SourceSpace {
  private final SourceSpace underlying;

  /**
   * @param underlying may be null
   */
  PatternSpace(SourceSpace underlying) {
    super(underlying == null ? 0 : underlying.components(), Reach.PROCESS);
    this.underlying = underlying;
  }

  /** The space of an uncoloured pattern's colour; null where none is given. */
  SourceSpace underlying() {
    return underlying;
  }

  @Override
  void ink(float[] color, char[] row) {
    throw new IllegalStateException("a pattern has no ink of its own");
  }
}
