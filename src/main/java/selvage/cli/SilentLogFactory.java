package selvage.cli;

import org.apache.commons.logging.Log;
import org.apache.commons.logging.LogFactory;
import org.apache.commons.logging.impl.NoOpLog;

/**
 * Gives every library the same log, which keeps nothing: what PDFBox would log is a finding here.
 * It spares each start the search for a logging library.
 */
public final class SilentLogFactory extends LogFactory {
  private final Log silence = new NoOpLog();

  /** For the logging library, which makes the factory by its name. */
  public SilentLogFactory() {}

  @Override
  public Object getAttribute(String name) {
    return null;
  }

  @Override
  public String[] getAttributeNames() {
    return new String[0];
  }

  @Override
  @SuppressWarnings("rawtypes") // as it is declared there
  public Log getInstance(Class clazz) {
    return silence;
  }

  @Override
  public Log getInstance(String name) {
    return silence;
  }

  @Override
  public void release() {}

  @Override
  public void removeAttribute(String name) {}

  @Override
  public void setAttribute(String name, Object value) {}
}
