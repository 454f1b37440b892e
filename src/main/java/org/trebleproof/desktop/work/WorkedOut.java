package org.trebleproof.desktop.work;

import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.Rows;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.predict.Prediction;
import org.trebleproof.bench.model.FittedParts;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.Quantity;

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

  /** A prediction of the guitar as it is now begins where the verdict says it is. */
  public Prediction toldOf(Prediction prediction) {
    if (parts.isEmpty()) {
      return prediction;
    }
    Rows now = result.rows().setup(chain().orElseThrow().current());
    return prediction.startingFrom(
        now.estimate(Quantity.RESONANCE), now.estimate(Quantity.RESONANCE_PEAK));
  }

  /** What the verdict says of a part that is no pickup. */
  Optional<Estimate> reading(String part) {
    return result.rows().part(part).first();
  }

  /** What a meter would read of a part: its value, or a pickup's resistance. */
  public Optional<Estimate> ofPart(String part) {
    return result.rows().coil(part).estimate(Quantity.RESISTANCE).or(() -> reading(part));
  }
}
