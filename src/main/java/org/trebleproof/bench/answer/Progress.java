package org.trebleproof.bench.answer;

/** Is told how far a job is. */
@FunctionalInterface
public interface Progress {

  /** Nobody listens. */
  Progress UNHEARD = share -> {};

  /** Share of the work when every capture is read, when the models are fitted and checked. */
  double READ = 0.5;

  double FITTED = 0.8;
  double CHECKED = 0.9;

  /**
   * The job is so far. What this throws ends the job.
   *
   * @param share 0 to 1
   */
  void at(double share);
}
