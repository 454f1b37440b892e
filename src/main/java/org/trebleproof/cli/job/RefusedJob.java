package org.trebleproof.cli.job;

import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.Verdict;

/** A job whose recordings were refused: there is no guitar in it, but there is a reason. */
public final class RefusedJob extends Refusal {
  private static final long serialVersionUID = 1;

  private final String title;
  private final transient Verdict verdict;

  RefusedJob(String sentence, String title, Verdict verdict) {
    super(sentence);
    this.title = title;
    this.verdict = verdict;
  }

  /** What the job is called. */
  public String title() {
    return title;
  }

  /** What was found. */
  public Verdict verdict() {
    return verdict;
  }
}
