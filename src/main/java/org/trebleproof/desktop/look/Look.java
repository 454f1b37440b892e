package org.trebleproof.desktop.look;

/**
 * How the window looks.
 *
 * @param scheme light, dark, or as the system
 * @param highContrast whether ink and paper are as far apart as they can be
 * @param scale size of type, 100 to 200 %
 */
public record Look(Scheme scheme, boolean highContrast, int scale) {

  public static final int SMALLEST = 100;
  public static final int LARGEST = 200;
  public static final int STEP = 25;

  /** What a first start looks like. */
  public static final Look USUAL = new Look(Scheme.SYSTEM, false, SMALLEST);

  public Look {
    scale = Math.max(SMALLEST, Math.min(LARGEST, scale));
  }

  public Look with(Scheme other) {
    return new Look(other, highContrast, scale);
  }

  public Look withContrast(boolean high) {
    return new Look(scheme, high, scale);
  }

  public Look withScale(int percent) {
    return new Look(scheme, highContrast, percent);
  }
}
