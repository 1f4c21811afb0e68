package selvage.separation;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import selvage.separation.MeshReader.Vertex;

/** Draws the triangles and patches of mesh shadings (types 4 to 7). */
final class MeshShading {
  private static final int MOST_PIECES = 2_000_000;
  private static final long WORK_BETWEEN_LOOKS = 1_000_000;

  private final MeshReader in;
  private final MeshRaster out;
  private final PageScope scope;
  private int pieces;
  private long work; // samples since the clock was looked at

  MeshShading(MeshReader in, MeshRaster out, PageScope scope) {
    this.in = in;
    this.out = out;
    this.scope = scope;
  }

  void draw(int type, COSDictionary shading) throws IOException {
    switch (type) {
      case 4 -> freeForm();
      case 5 -> lattice(shading.getInt(COSName.VERTICES_PER_ROW));
      default -> patches(type == 7);
    }
    if (pieces == 0) {
      throw new IOException("its data hold no whole piece of the mesh");
    }
  }

  private void triangle(Vertex a, Vertex b, Vertex c) {
    pieces++;
    work += 1000 + out.triangle(a, b, c);
    if (work > WORK_BETWEEN_LOOKS) {
      work = 0;
      scope.checkTime();
    }
  }

  private void freeForm() {
    Vertex a = null;
    Vertex b = null;
    Vertex c = null;
    while (in.hasFlag() && pieces < MOST_PIECES) {
      int flag = in.flag();
      if (!in.hasVertex()) {
        return;
      }
      Vertex next = in.vertex();
      in.alignToByte();
      if (flag == 0 || c == null) {
        a = next;
        b = flagged();
        c = flagged();
        if (c == null) {
          return;
        }
      } else if (flag == 1) {
        a = b;
        b = c;
        c = next;
      } else {
        b = c;
        c = next;
      }
      triangle(a, b, c);
    }
  }

  private Vertex flagged() {
    if (!in.hasFlag()) {
      return null;
    }
    in.flag();
    if (!in.hasVertex()) {
      return null;
    }
    Vertex vertex = in.vertex();
    in.alignToByte();
    return vertex;
  }

  private void lattice(int columns) throws IOException {
    if (columns < 2 || columns > 1_000_000) {
      throw new IOException("a lattice mesh of " + columns + " vertices a row");
    }
    List<Vertex> above = List.of();
    while (pieces < MOST_PIECES) {
      List<Vertex> row = new ArrayList<>();
      while (row.size() < columns && in.hasVertex()) {
        row.add(in.vertex());
        in.alignToByte();
      }
      if (row.size() < columns) {
        return;
      }
      for (int i = 0; i + 1 < columns && !above.isEmpty(); i++) {
        triangle(above.get(i), above.get(i + 1), row.get(i));
        triangle(above.get(i + 1), row.get(i), row.get(i + 1));
      }
      above = row;
    }
  }

  private void patches(boolean tensor) {
    MeshPatch before = null;
    while (in.hasFlag() && pieces < MOST_PIECES) {
      int flag = in.flag();
      boolean fresh = flag == 0 || before == null;
      int points = (fresh ? 12 : 8) + (tensor ? 4 : 0);
      if (!in.hasPoints(points, fresh ? 4 : 2)) {
        return;
      }
      MeshPatch patch = MeshPatch.read(in, fresh ? null : before, flag, tensor);
      in.alignToByte();
      patch.draw(this::triangle, out);
      before = patch;
    }
  }
}
