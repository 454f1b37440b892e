package org.trebleproof.desktop.task;

/** Through which work says how far it has come. */
@FunctionalInterface
public interface Ticker {

  /**
   * Says how far the work is.
   *
   * @param share 0 to 1
   * @throws java.util.concurrent.CancellationException when the work is no longer wanted
   */
  void at(double share);
}
