package org.trebleproof.cli.job;

import java.util.Optional;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.quantity.Refusal;
import org.trebleproof.quantity.Verdict;

/** A job whose recordings were refused: there is no guitar in it to rely on, but a reason. */
public final class RefusedJob extends Refusal {
  private static final long serialVersionUID = 1;

  private final String title;
  private final transient Verdict verdict;
  private final transient Optional<SignalChain> doubted;

  RefusedJob(String sentence, String title, Verdict verdict, Optional<SignalChain> doubted) {
    super(sentence);
    this.title = title;
    this.verdict = verdict;
    this.doubted = doubted;
  }

  /** What the job is called. */
  public String title() {
    return title;
  }

  /** What was found. */
  public Verdict verdict() {
    return verdict;
  }

  /** What was fitted all the same, where nothing but coils was recorded. */
  public Optional<SignalChain> doubted() {
    return doubted;
  }
}
