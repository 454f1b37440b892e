package org.trebleproof.audio.device;

/** Is handed what is recorded while it is recorded: a level meter, a spectrum, a file. */
@FunctionalInterface
public interface BlockListener {

  /**
   * One stretch of sound. Called on the thread that runs the transport; must return soon, and may
   * not keep the arrays.
   *
   * @param block one array per channel, full scale ±1
   * @param frames of them that are filled
   */
  void block(float[][] block, int frames);
}
