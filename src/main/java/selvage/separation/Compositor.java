package selvage.separation;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.List;
import selvage.ink.Tint;

/**
 * Paints regions onto the stack of layers of a page's band. All colours are states of one {@link
 * StateTable}.
 */
final class Compositor {
  /** States beyond which unused ones are dropped between two painting operations. */
  private static final int COMPACT_AT = 3_000_000;

  /** Cells of all layers that are open at a time; 200 megabytes. */
  private static final long MOST_CELLS = 50_000_000;

  private final InkSet inks;
  private final StateTable table;
  private final BlendSpaces blendSpaces;
  private final Deque<Layer> layers = new ArrayDeque<>();
  private final List<int[]> otherRasters = new ArrayList<>();
  private int compactAt = COMPACT_AT;

  private Blender blender;
  private Layer blenderLayer;
  private boolean[] blenderPainted;
  private Blend blenderBlend;

  Compositor(InkSet inks, BlendSpaces blendSpaces, Layer page) {
    this.inks = inks;
    this.blendSpaces = blendSpaces;
    this.table = new StateTable(inks.size());
    layers.push(page);
  }

  StateTable table() {
    return table;
  }

  Layer layer() {
    return layers.peek();
  }

  int depth() {
    return layers.size();
  }

  /** A zero row as wide as the page's colorants stand now. */
  char[] newRow() {
    if (table.slots() < inks.size()) {
      table.growTo(inks.size());
      blender = null;
    }
    return table.newRow();
  }

  /** How an object is put on what is there. */
  static final class Mode {
    private final boolean[] painted;
    private final int alpha;
    private final Blend blend;
    private final SoftMask mask;

    /**
     * A mode.
     *
     * @param painted which slots are painted, by slot; null for all
     * @param alpha constant opacity in {@link Tint} units
     * @param mask may be null
     */
    Mode(boolean[] painted, int alpha, Blend blend, SoftMask mask) {
      this.painted = painted;
      this.alpha = alpha;
      this.blend = blend;
      this.mask = mask;
    }

    boolean[] painted() {
      return painted;
    }

    int alpha() {
      return alpha;
    }

    Blend blend() {
      return blend;
    }

    SoftMask mask() {
      return mask;
    }

    boolean isPlain() {
      return painted == null && alpha == Tint.FULL && blend == Blend.NORMAL && mask == null;
    }
  }

  /** Paints one state over a region. */
  void paint(Region region, int state, Mode mode) {
    Layer layer = layers.peek();
    int first = Math.max(region.top(), layer.top);
    int last = Math.min(region.bottom(), layer.bottom());
    hold(layer, first, last);
    boolean plain = mode.isPlain() && table.alpha(state) == Tint.FULL;
    Blender op = plain ? null : blender(layer, mode);
    for (int y = first; y < last; y++) {
      for (int i = region.rowStart(y); i < region.rowEnd(y); i += 2) {
        int x0 = Math.max(region.span(i), layer.left);
        int x1 = Math.min(region.span(i + 1), layer.right());
        if (x0 >= x1) {
          continue;
        }
        layer.touch(x0, x1, y);
        if (plain) {
          layer.fill(x0, x1, y, state);
          continue;
        }
        int at = layer.offset(x0, y);
        for (int x = x0; x < x1; x++, at++) {
          int alpha = mode.alpha();
          if (mode.mask() != null) {
            alpha = multiply(alpha, mode.mask().at(x, y));
          }
          if (alpha > 0) {
            layer.cells[at] = op.paint(layer.cells[at], layer.initialAt(at), state, alpha);
          }
        }
      }
    }
  }

  /** Paints what a source says over a region. */
  void paint(Region region, RowSource source, Mode mode) {
    Layer layer = layers.peek();
    int first = Math.max(region.top(), layer.top);
    int last = Math.min(region.bottom(), layer.bottom());
    hold(layer, first, last);
    boolean plain = mode.isPlain();
    Blender op = blender(layer, mode);
    int[] states = new int[layer.width];
    char[] alphas = new char[layer.width];
    for (int y = first; y < last; y++) {
      for (int i = region.rowStart(y); i < region.rowEnd(y); i += 2) {
        int x0 = Math.max(region.span(i), layer.left);
        int x1 = Math.min(region.span(i + 1), layer.right());
        if (x0 >= x1) {
          continue;
        }
        layer.touch(x0, x1, y);
        source.row(y, x0, x1, states, alphas);
        int at = layer.offset(x0, y);
        for (int k = 0; k < x1 - x0; k++, at++) {
          int state = states[k];
          if (state == RowSource.NONE) {
            continue;
          }
          int alpha = mode.alpha();
          if (source.hasAlpha()) {
            alpha = multiply(alpha, alphas[k]);
          }
          if (mode.mask() != null) {
            alpha = multiply(alpha, mode.mask().at(x0 + k, y));
          }
          if (plain && alpha == Tint.FULL && table.alpha(state) == Tint.FULL) {
            layer.cells[at] = state;
          } else if (alpha > 0) {
            layer.cells[at] = op.paint(layer.cells[at], layer.initialAt(at), state, alpha);
          }
        }
      }
    }
    compactIfFull();
  }

  static int multiply(int a, int b) {
    return a == Tint.FULL ? b : b == Tint.FULL ? a : (int) ((long) a * b / Tint.FULL);
  }

  private Blender blender(Layer layer, Mode mode) {
    if (blender == null
        || blenderLayer != layer
        || blenderBlend != mode.blend()
        || !Arrays.equals(blenderPainted, mode.painted())) {
      blender = new Blender(table, layer, mode.painted(), mode.blend());
      blenderLayer = layer;
      blenderPainted = mode.painted();
      blenderBlend = mode.blend();
    }
    return blender;
  }

  /**
   * Begins a transparency group.
   *
   * @param bounds the samples that the group can touch
   * @param blending the group's colour space; a non-isolated group takes its parent's
   * @throws IOException if there is no room for another layer
   */
  void beginGroup(
      PageGeometry.Window bounds, boolean isolated, boolean knockout, Layer.Blending blending)
      throws IOException {
    Layer parent = layers.peek();
    int left = Math.max(parent.left, bounds.left());
    int top = Math.max(parent.top, bounds.top());
    int right = Math.max(left, Math.min(parent.right(), bounds.right()));
    int bottom = Math.max(top, Math.min(parent.bottom(), bounds.bottom()));
    checkRoom((long) (right - left) * (bottom - top) * (isolated ? 1 : 2));
    layers.push(
        Layer.group(
            left,
            top,
            right,
            bottom,
            isolated ? null : parent,
            knockout,
            isolated ? blending : parent.blending));
  }

  /** Makes sure that a layer has cells for its rows from one to another. */
  private void hold(Layer layer, int first, int last) {
    if (first >= last || (layer.heldTop() <= first && last <= layer.heldBottom())) {
      return;
    }
    int heldTop = layer.heldTop();
    int heldBottom = layer.heldBottom();
    layer.hold(first, last);
    if (layer.backdrop != null) {
      if (heldTop == heldBottom) {
        takeBackdrop(layer, layer.heldTop(), layer.heldBottom());
      } else {
        takeBackdrop(layer, layer.heldTop(), heldTop);
        takeBackdrop(layer, heldBottom, layer.heldBottom());
      }
    }
  }

  /** Begins rows of a non-isolated group with what lies beneath them. */
  private void takeBackdrop(Layer layer, int first, int last) {
    Layer parent = layer.backdrop;
    hold(parent, first, last);
    Memo flattened = new Memo();
    Memo cleared = new Memo();
    int lastCell = StateTable.BLANK;
    int lastInitial = StateTable.BLANK;
    int under = StateTable.BLANK;
    int clean = StateTable.BLANK;
    for (int y = first; y < last; y++) {
      int at = parent.offset(layer.left, y);
      int n = layer.offset(layer.left, y);
      for (int end = n + layer.width; n < end; at++, n++) {
        int initial = parent.initialAt(at);
        int cell = parent.knockout ? initial : parent.cells[at];
        if (cell != lastCell || initial != lastInitial) {
          lastCell = cell;
          lastInitial = initial;
          under = parent.knockout ? initial : backdropOf(cell, initial, flattened);
          clean = under == StateTable.BLANK ? under : clearedOf(under, cleared);
        }
        layer.initial[n] = under;
        layer.cells[n] = clean;
      }
    }
  }

  /**
   * Begins the cell of a tiling pattern: an isolated layer with a raster of its own.
   *
   * @throws IOException if there is no room for another layer
   */
  void beginCell(int width, int height) throws IOException {
    checkRoom((long) width * height);
    layers.push(Layer.isolated(0, 0, width, height, false, layers.peek().blending));
  }

  private void checkRoom(long more) throws IOException {
    long cells = more;
    for (Layer layer : layers) {
      cells += (long) layer.width * layer.height * (layer.backdrop == null ? 1 : 2);
    }
    if (cells > MOST_CELLS) {
      throw new IOException("too many groups or patterns lie in one another for this page's size");
    }
  }

  /** A cell's colour with the opacity of the group and its backdrop together. */
  private int backdropOf(int cell, int initial, Memo memo) {
    if (initial == StateTable.BLANK) {
      return cell;
    }
    long key = (long) cell << 32 | initial;
    int known = memo.get(key);
    if (known == Memo.ABSENT) {
      char[] row = table.newRow();
      table.read(cell, row);
      float full = Tint.FULL;
      row[StateTable.ALPHA] =
          (char)
              Math.round(
                  full * Blender.union(table.alpha(initial) / full, table.alpha(cell) / full));
      known = table.intern(row);
      memo.put(key, known);
    }
    return known;
  }

  /** A backdrop's colour with nothing of the group painted yet. */
  private int clearedOf(int under, Memo memo) {
    int known = memo.get(under);
    if (known == Memo.ABSENT) {
      char[] row = table.newRow();
      table.read(under, row);
      row[StateTable.KINDS] = 0;
      row[StateTable.ALPHA] = 0;
      known = table.intern(row);
      memo.put(under, known);
    }
    return known;
  }

  /** Ends the current group and returns its layer, without painting it. */
  Layer endGroup() {
    blender = null;
    return layers.pop();
  }

  /**
   * Paints an ended group on the current layer as one object.
   *
   * @param region where it may be painted (the clip in force at the group's invocation)
   */
  void paintGroup(Layer group, Region region, Mode mode) {
    Layer parent = layers.peek();
    Memo results = new Memo();
    RowSource source =
        new RowSource() {
          private int lastCell = StateTable.BLANK;
          private int lastInitial = StateTable.BLANK;
          private int lastState = NONE;

          @Override
          public boolean hasAlpha() {
            return false;
          }

          @Override
          public void row(int y, int x0, int x1, int[] states, char[] alphas) {
            int at = group.offset(x0, y);
            for (int k = 0; k < x1 - x0; k++, at++) {
              int cell = group.cells[at];
              int initial = group.initialAt(at);
              if (cell != lastCell || initial != lastInitial) {
                lastCell = cell;
                lastInitial = initial;
                lastState =
                    table.kinds(cell) == 0
                        ? NONE
                        : resultOf(group, cell, initial, parent.blending, results);
              }
              states[k] = lastState;
            }
          }
        };
    otherRasters.add(group.cells);
    if (group.initial != null) {
      otherRasters.add(group.initial);
    }
    paint(region.intersect(group.touched()), source, mode);
    otherRasters.clear();
  }

  /** The group's own colour at a sample, the backdrop's share taken out (11.4.8). */
  private int resultOf(Layer group, int cell, int initial, Layer.Blending wanted, Memo memo) {
    boolean same = group.blending == wanted;
    int a0 = initial == StateTable.BLANK ? 0 : table.alpha(initial);
    int ag = table.alpha(cell);
    boolean share = a0 > 0 && ag > 0 && ag < Tint.FULL;
    if (same && !share) {
      return cell;
    }
    long key = (long) cell << 32 | (share ? initial : 0);
    int known = memo.get(key);
    if (known != Memo.ABSENT) {
      return known;
    }
    char[] row = table.newRow();
    table.read(cell, row);
    if (share) {
      float factor = a0 / (float) Tint.FULL * (Tint.FULL - ag) / ag;
      for (int slot = 0; slot < table.slots(); slot++) {
        float c = row[StateTable.INKS + slot];
        float c0 = table.tint(initial, slot);
        row[StateTable.INKS + slot] =
            (char) Math.round(Math.max(0, Math.min(Tint.FULL, c + (c - c0) * factor)));
      }
    }
    if (!same) {
      blendSpaces.convert(row, group.blending, wanted);
    }
    known = table.intern(row);
    memo.put(key, known);
    return known;
  }

  private void compactIfFull() {
    if (table.size() < compactAt) {
      return;
    }
    List<int[]> rasters = new ArrayList<>(otherRasters);
    for (Layer layer : layers) {
      rasters.add(layer.cells);
      if (layer.initial != null) {
        rasters.add(layer.initial);
      }
    }
    table.compact(rasters);
    blender = null;
    compactAt = Math.max(COMPACT_AT, 2 * table.size());
  }
}
