package org.trebleproof.fit;

/**
 * Nonlinear regressions with certified results: National Institute of Standards and Technology,
 * Statistical Reference Datasets, Nonlinear Regression (www.itl.nist.gov/div898/strd), one file per
 * set. MGH17 is checked against the copy that Apache Commons Math keeps with its tests.
 */
enum ReferenceRegression {
  MISRA1A(
      Data.MISRA,
      (x, b) -> b[0].multiply(b[1].multiply(-x).expm1().negate()),
      new double[][] {{500, 1e-4}, {250, 5e-4}},
      new double[] {238.94212918, 5.5015643181e-4},
      new double[] {2.7070075241, 7.2668688436e-6},
      0.12455138894),
  MISRA1B(
      Data.MISRA,
      (x, b) -> b[0].multiply(b[1].multiply(x / 2).add(1).pow(-2).negate().add(1)),
      new double[][] {{500, 1e-4}, {300, 2e-4}},
      new double[] {337.99746163, 3.9039091287e-4},
      new double[] {3.1643950207, 4.2547321834e-6},
      0.075464681533),
  MISRA1C(
      Data.MISRA,
      (x, b) -> b[0].multiply(b[1].multiply(2 * x).add(1).pow(-0.5).negate().add(1)),
      new double[][] {{500, 1e-4}, {600, 2e-4}},
      // From memory; the data above give these figures again.
      new double[] {636.42725809, 2.0813627256e-4},
      new double[] {4.6638326572, 1.7728423155e-6},
      0.040966836971),
  MISRA1D(
      Data.MISRA,
      (x, b) -> b[0].multiply(b[1]).multiply(x).divide(b[1].multiply(x).add(1)),
      new double[][] {{500, 1e-4}, {450, 3e-4}},
      // From memory; the data above give these figures again.
      new double[] {437.36970754, 3.0227324449e-4},
      new double[] {3.6489174345, 2.9334354479e-6},
      0.056419295283),
  BOXBOD(
      new double[][] {{1, 2, 3, 5, 7, 10}, {109, 149, 149, 191, 213, 224}},
      (x, b) -> b[0].multiply(b[1].multiply(-x).expm1().negate()),
      new double[][] {{1, 1}, {100, 0.75}},
      new double[] {213.80940889, 0.54723748542},
      new double[] {12.354515176, 0.10455993237},
      1168.0088766),
  ECKERLE4(
      Data.ECKERLE,
      (x, b) ->
          b[0].divide(b[1]).multiply(b[2].subtract(x).divide(b[1]).pow(2).multiply(-0.5).exp()),
      new double[][] {{1, 10, 500}, {1.5, 5, 450}},
      new double[] {1.5543827178, 4.0888321754, 451.54121844},
      new double[] {0.015408051163, 0.046803020753, 0.046800518816},
      1.4635887487e-3),
  MGH17(
      Data.OSBORNE,
      (x, b) ->
          b[0].add(b[1].multiply(b[3].multiply(-x).exp()))
              .add(b[2].multiply(b[4].multiply(-x).exp())),
      new double[][] {{50, 150, -100, 1, 2}, {0.5, 1.5, -1, 0.01, 0.02}},
      new double[] {0.37541005211, 1.9358469127, -1.4646871366, 0.012867534640, 0.022122699662},
      new double[] {
        2.0723153551e-3, 0.22031669222, 0.22175707739, 4.4861358114e-4, 8.9471996575e-4
      },
      5.4648946975e-5);

  final double[][] starts;
  final double[] certified;
  final double[] certifiedSd;
  final double certifiedSumOfSquares;
  private final double[][] data;
  private final CurveFit.Curve curve;

  ReferenceRegression(
      double[][] data,
      CurveFit.Curve curve,
      double[][] starts,
      double[] certified,
      double[] certifiedSd,
      double certifiedSumOfSquares) {
    this.data = data;
    this.curve = curve;
    this.starts = starts;
    this.certified = certified;
    this.certifiedSd = certifiedSd;
    this.certifiedSumOfSquares = certifiedSumOfSquares;
  }

  CurveFit model() {
    return new CurveFit(data[0], data[1], curve);
  }

  /** The least squares from one of the published starts. */
  Solution solved(int start) {
    return new LeastSquares(1e-14, 2000).solve(CurveFit.started(starts[start]), model());
  }

  /** Data of sets: predictor, response. */
  private static final class Data {
    static final double[][] MISRA = {
      {
        77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1,
        760.0
      },
      {
        10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.40, 75.47,
        81.78
      }
    };
    static final double[][] ECKERLE = {
      {
        400, 405, 410, 415, 420, 425, 430, 435, 436.5, 438, 439.5, 441, 442.5, 444, 445.5, 447,
        448.5, 450, 451.5, 453, 454.5, 456, 457.5, 459, 460.5, 462, 463.5, 465, 470, 475, 480, 485,
        490, 495, 500
      },
      {
        .0001575, .0001699, .000235, .0003102, .0004917, .000871, .0017418, .00464, .0065895,
        .0097302, .0149002, .023731, .0401683, .0712559, .1264458, .2073413, .2902366, .3445623,
        .3698049, .3668534, .3106727, .2078154, .1164354, .0616764, .03372, .0194023, .0117831,
        .0074357, .0022732, .00088, .0004579, .0002345, .0001586, .0001143, .000071
      }
    };
    static final double[][] OSBORNE = {
      java.util.stream.IntStream.range(0, 33).mapToDouble(i -> 10 * i).toArray(),
      {
        .844, .908, .932, .936, .925, .908, .881, .850, .818, .784, .751, .718, .685, .658, .628,
        .603, .580, .558, .538, .522, .506, .490, .478, .467, .457, .448, .438, .431, .424, .420,
        .414, .411, .406
      }
    };
  }
}
