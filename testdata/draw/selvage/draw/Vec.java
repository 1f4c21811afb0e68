package selvage.draw;

/** Three numbers: a place, a direction or a colour. */
record Vec(double x, double y, double z) {
  static Vec rgb(int hex) {
    return new Vec((hex >> 16) / 255.0, (hex >> 8 & 0xFF) / 255.0, (hex & 0xFF) / 255.0);
  }

  Vec plus(Vec other) {
    return new Vec(x + other.x, y + other.y, z + other.z);
  }

  Vec minus(Vec other) {
    return new Vec(x - other.x, y - other.y, z - other.z);
  }

  Vec times(double factor) {
    return new Vec(x * factor, y * factor, z * factor);
  }

  Vec times(Vec other) {
    return new Vec(x * other.x, y * other.y, z * other.z);
  }

  Vec mix(Vec other, double share) {
    return new Vec(x + (other.x - x) * share, y + (other.y - y) * share, z + (other.z - z) * share);
  }

  double dot(Vec other) {
    return x * other.x + y * other.y + z * other.z;
  }

  Vec cross(Vec other) {
    return new Vec(y * other.z - z * other.y, z * other.x - x * other.z, x * other.y - y * other.x);
  }

  double length() {
    return Math.sqrt(dot(this));
  }

  Vec unit() {
    return times(1 / length());
  }
}
