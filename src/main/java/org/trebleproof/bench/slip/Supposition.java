package org.trebleproof.bench.slip;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import org.trebleproof.bench.answer.Slip;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.job.JobEdit;
import org.trebleproof.bench.model.FirstFit;

/**
 * A slip that may have been made.
 *
 * @param kind which kind of slip
 * @param at what it is about, by name
 * @param edits what would have to be said otherwise
 * @param open what of that has a value nobody knows yet: names of unknowns, with the spread of
 *     their coordinate
 * @param told what is said once a fit has found those values
 */
record Supposition(
    Slip.Kind kind,
    List<String> at,
    List<JobEdit> edits,
    Map<String, Double> open,
    Function<FirstFit, Told> told) {

  /**
   * The slip in words.
   *
   * @param what was done, as a clause
   * @param so how everything agrees
   * @param edits what of the job has to be said otherwise
   * @param instead the slip that it is, seen by the values found, where it is another one
   */
  record Told(String what, String so, List<JobEdit> edits, Optional<Named> instead) {
    /** What was found is what was said: no slip. */
    static final Told AS_SAID = new Told("", "", List.of());

    Told(String what, String so, List<JobEdit> edits) {
      this(what, so, edits, Optional.empty());
    }
  }

  /** A kind of slip and what it is about. */
  record Named(Slip.Kind kind, List<String> at) {}

  /** A slip in which everything is known. */
  static Supposition known(
      Slip.Kind kind, List<String> at, List<JobEdit> edits, String what, String so) {
    return new Supposition(kind, at, edits, Map.of(), fit -> new Told(what, so, edits));
  }

  /** Whether something would be connected otherwise than the job says. */
  boolean ofWiring() {
    return kind == Slip.Kind.CHANNELS_SWAPPED || kind == Slip.Kind.WRONG_FIXTURE;
  }

  /** The job as it is then. */
  Job supposed(Job job) {
    Job supposed = job;
    for (JobEdit edit : edits) {
      supposed = edit.applied(supposed);
    }
    return supposed;
  }

  /** What is said of it; empty where the values found are those that the job states anyway. */
  Optional<Slip> slip(FirstFit fit) {
    Told said = told.apply(fit);
    if (said.equals(Told.AS_SAID)) {
      return Optional.empty();
    }
    Named named = said.instead().orElse(new Named(kind, at));
    return Optional.of(new Slip(named.kind(), named.at(), said.what(), said.so(), said.edits()));
  }
}
