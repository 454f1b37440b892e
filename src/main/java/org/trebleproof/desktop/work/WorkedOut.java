package org.trebleproof.desktop.work;

import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.model.FittedParts;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.quantity.Estimate;

/**
 * What a job came to.
 *
 * @param draft the job as it was worked out
 * @param result of the fit
 * @param parts what was learned of the parts; empty where no model stands
 */
public record WorkedOut(JobDraft draft, FitResult result, Optional<FittedParts> parts) {

  /** The guitar as it can be changed on trial; empty where no model stands. */
  public Optional<SignalChain> chain() {
    return parts.map(p -> SignalChain.of(p, List.of()));
  }

  /** An estimate by its key; empty when it is absent or withdrawn. */
  public Optional<Estimate> estimate(String key) {
    return result.rows().stream()
        .filter(row -> row.key().equals(key))
        .findFirst()
        .flatMap(FitResult.Row::estimate);
  }
}
