package org.trebleproof.signal.sweep;

/**
 * Bins gathered into cells of 1/288 octave (of one bin each where bins are wider apart), so that a
 * regression over thousands of bins runs over dozens of cells. Each cell is one observation of the
 * transfer: its value is the weighted mean over the cell, and its first two moments of ln f say of
 * what it is the mean.
 */
final class FrequencyCells {

  private static final double CELLS_PER_OCTAVE = 288;

  /** First bin of each cell, and one past the last cell's bins. */
  private final int[] edge;

  private final double[] lnHz;
  private final int firstBin;

  /** Weighted mean of ln f. */
  final double[] centre;

  /** Weighted variance of ln f within the cell. */
  final double[] spread;

  /** Summed power of the reference. */
  final double[] weight;

  /** Mean transfer, real and imaginary part. */
  final double[] re;

  final double[] im;

  /** Summed power of the device. */
  final double[] devicePower;

  /** Number of independent bins in each cell. */
  final double[] freedoms;

  /** Cells over the bins of {@code segment} from {@code lowHz} up to its last. */
  FrequencyCells(SweepSegment segment, double lowHz) {
    double binHz = segment.binHz();
    firstBin = Math.max(1, (int) Math.ceil(lowHz / binHz));
    int bins = segment.bins();
    lnHz = new double[Math.max(0, bins - firstBin)];
    int[] edges = new int[lnHz.length + 1];
    int cells = 0;
    double step = Math.log(2) / CELLS_PER_OCTAVE;
    double next = Double.NEGATIVE_INFINITY;
    for (int b = firstBin; b < bins; b++) {
      double ln = Math.log(b * binHz);
      lnHz[b - firstBin] = ln;
      if (ln >= next) {
        edges[cells++] = b;
        next = Math.max(next + step, ln + step / 2);
      }
    }
    edges[cells] = bins;
    edge = java.util.Arrays.copyOf(edges, cells + 1);
    centre = new double[cells];
    spread = new double[cells];
    weight = new double[cells];
    re = new double[cells];
    im = new double[cells];
    devicePower = new double[cells];
    freedoms = new double[cells];
  }

  /** Number of cells. */
  int size() {
    return centre.length;
  }

  /** Gathers the bins of a segment of the same length and rate as the first. */
  void gather(SweepSegment s) {
    for (int c = 0; c < centre.length; c++) {
      double w = 0;
      double w1 = 0;
      double w2 = 0;
      double zr = 0;
      double zi = 0;
      double power = 0;
      double origin = lnHz[edge[c] - firstBin];
      for (int b = edge[c]; b < edge[c + 1]; b++) {
        double xr = s.referenceRe[b];
        double xi = s.referenceIm[b];
        double yr = s.deviceRe[b];
        double yi = s.deviceIm[b];
        double p = xr * xr + xi * xi;
        double u = lnHz[b - firstBin] - origin;
        w += p;
        w1 += p * u;
        w2 += p * u * u;
        zr += xr * yr + xi * yi;
        zi += xr * yi - xi * yr;
        power += yr * yr + yi * yi;
      }
      weight[c] = w;
      devicePower[c] = power;
      freedoms[c] = (edge[c + 1] - edge[c]) / s.binsPerFreedom();
      if (w > 0) {
        double mean = w1 / w;
        centre[c] = origin + mean;
        spread[c] = Math.max(0, w2 / w - mean * mean);
        re[c] = zr / w;
        im[c] = zi / w;
      } else {
        centre[c] = origin;
        spread[c] = 0;
        re[c] = 0;
        im[c] = 0;
      }
    }
  }

  /** First cell whose bins start at or above {@code ln}. */
  int cellAt(double ln) {
    int low = 0;
    int high = centre.length;
    while (low < high) {
      int mid = (low + high) >>> 1;
      if (lnHz[edge[mid] - firstBin] < ln) {
        low = mid + 1;
      } else {
        high = mid;
      }
    }
    return low;
  }

  /** Mean power of the reference per bin, times frequency: flat for an exponential sweep. */
  double densityTimesFrequency(double lnLow, double lnHigh) {
    double power = 0;
    int first = cellAt(lnLow);
    int last = Math.max(first + 1, cellAt(lnHigh));
    int bins = 0;
    for (int c = first; c < Math.min(last, size()); c++) {
      power += weight[c];
      bins += edge[c + 1] - edge[c];
    }
    return bins == 0 ? 0 : power / bins * Math.exp((lnLow + lnHigh) / 2);
  }
}
