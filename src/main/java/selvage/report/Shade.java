package selvage.report;

/**
 * What a mark of a report is for; each form of the report has its own colour for it. Those of paper
 * stand here; HTML has one for light and one for dark surroundings.
 */
enum Shade {
  /** Text and outlines. */
  INK(0x1a1a1a),
  /** Text of lesser weight. */
  MUTED(0x565656),
  /** Thin rules and grids. */
  RULE(0xcccccc),
  /** Behind what belongs together. */
  PANEL(0xf2f2f2),
  /** Around swatches: neutral, near L* 70, the same in every surrounding. */
  SURROUND(0xababab),
  /** Bars of what is within its limit. */
  BAR(0x7a7a7a),
  PASS(0x0b6238),
  FAIL(0xb3201a),
  UNDECIDED(0x7a5200),
  /** On a sign. */
  ON_SIGN(0xffffff);

  private final int paper;

  Shade(int paper) {
    this.paper = paper;
  }

  /** On paper: red, green, blue in three bytes, sRGB. */
  int paper() {
    return paper;
  }

  /** The class that HTML gives it. */
  String htmlClass() {
    return name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
  }
}
