package org.trebleproof.bench.mod.identify;

/**
 * Families of pickups and what is usual for them: the middle and the factor that holds about two
 * thirds. Drawn from figures of low authority (single coils 5 to 8 kohm and 2 to 3 H, two-coil ones
 * 8 to 16 kohm and 4 to 8 H, 'hotter coils 10 to 15'); common practice, no source.
 */
public enum CoilFamily {
  SINGLE("single coil", 6.2e3, 1.18, 2.5, 1.25, 110e-12, 0.4),
  HOT_SINGLE("hotter single coil", 9.5e3, 1.25, 4.5, 1.35, 130e-12, 0.15),
  TWO_COIL("two coils in series (hum-cancelling pickup)", 8.6e3, 1.15, 5.0, 1.25, 130e-12, 0.25),
  HOT_TWO_COIL("two hotter coils in series", 14e3, 1.2, 8.0, 1.3, 130e-12, 0.08),
  ONE_OF_TWO("one coil of a two-coil pickup", 4.2e3, 1.2, 1.9, 1.35, 160e-12, 0.06),
  PARALLEL("two coils in parallel", 2.4e3, 1.3, 1.2, 1.4, 220e-12, 0.06);

  private final String words;
  private final double ohm;
  private final double ohmFactor;
  private final double henry;
  private final double henryFactor;
  private final double farad;
  private final double share;

  CoilFamily(
      String words,
      double ohm,
      double ohmFactor,
      double henry,
      double henryFactor,
      double farad,
      double share) {
    this.words = words;
    this.ohm = ohm;
    this.ohmFactor = ohmFactor;
    this.henry = henry;
    this.henryFactor = henryFactor;
    this.farad = farad;
    this.share = share;
  }

  /**
   * How many of the family wear a metal cover or sit on a metal plate; common practice, no source.
   */
  double covered() {
    return switch (this) {
      case TWO_COIL, HOT_TWO_COIL, PARALLEL, ONE_OF_TWO -> 0.4;
      default -> 0.15;
    };
  }

  /**
   * Diffusion times of the rods that the family usually has, from and to [s]: magnets under the
   * strings, or screws and slugs of steel; common practice, no source.
   */
  double[] rodTimes() {
    return twoCoils() || this == ONE_OF_TWO ? new double[] {3e-5, 2e-3} : new double[] {2e-5, 4e-4};
  }

  /** Turns that are usual, of both coils where they are in series; common practice, no source. */
  double turns() {
    return switch (this) {
      case SINGLE -> 8000;
      case HOT_SINGLE -> 10000;
      case TWO_COIL -> 10000;
      case HOT_TWO_COIL -> 14000;
      case ONE_OF_TWO -> 5000;
      // resistance in parallel is a quarter of that in series
      case PARALLEL -> 2700;
    };
  }

  /** Whether its winding is in two coils. */
  boolean twoCoils() {
    return this == TWO_COIL || this == HOT_TWO_COIL;
  }

  /** As a sentence says it. */
  public String words() {
    return words;
  }

  /** Usual resistance [ohm]. */
  public double ohm() {
    return ohm;
  }

  /** Usual inductance [H]. */
  public double henry() {
    return henry;
  }

  /**
   * The inductance of such a coil of another resistance [H]: more turns of the same wire add
   * resistance in proportion and inductance by the square.
   */
  double henryAt(double otherOhm) {
    return henry * Math.pow(otherOhm / ohm, 2);
  }

  /** How well a resistance and a capacitance fit, with the family's share of what lies about. */
  double fits(double foundOhm, double foundFarad) {
    return share
        * density(Math.log(foundOhm / ohm), 0, Math.log(ohmFactor))
        * density(Math.log(foundFarad / farad), 0, Math.log(1.6));
  }

  /** How well an inductance fits that of a sound coil of the family. */
  double fits(double foundHenry) {
    return density(Math.log(foundHenry / henry), 0, Math.log(henryFactor));
  }

  /** Normal density up to a common factor. */
  static double density(double value, double mean, double sd) {
    double z = (value - mean) / sd;
    return Math.exp(-0.5 * z * z) / sd;
  }
}
