package org.trebleproof.bench;

import java.util.concurrent.atomic.DoubleAdder;
import java.util.function.DoubleConsumer;
import org.trebleproof.bench.answer.Progress;

/** Adds up how much of several captures, read side by side, is read. */
final class SharesRead {

  private final int captures;
  private final Progress progress;
  private final DoubleAdder sum = new DoubleAdder();

  SharesRead(int captures, Progress progress) {
    this.captures = captures;
    this.progress = progress;
  }

  /** Takes the shares of one capture, each not below the one before. */
  DoubleConsumer ofOne() {
    progress.at(now());
    double[] before = {0};
    return share -> {
      sum.add(share - before[0]);
      before[0] = share;
      progress.at(now());
    };
  }

  private double now() {
    return Progress.READ * sum.sum() / captures;
  }
}
