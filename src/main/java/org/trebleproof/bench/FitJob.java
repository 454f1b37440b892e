package org.trebleproof.bench;

import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.job.Job;

/** Placeholder until the fit is here: says nothing about any job. */
public final class FitJob {

  /** An empty result. */
  public FitResult run(Job job) {
    return new FitResult(
        job,
        Optional.empty(),
        List.of(),
        Optional.empty(),
        job.notes(),
        List.of(),
        List.of(),
        List.of(),
        List.of());
  }
}
