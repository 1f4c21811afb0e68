package selvage.cli;

/** The entry point of the runnable jar. */
public final class Main {
  private Main() {}

  public static void main(String[] args) {
    System.exit(0);
  }
}
