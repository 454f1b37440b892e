package org.trebleproof.report.file;

import java.util.Map;
import java.util.Optional;
import org.trebleproof.bench.mod.listen.BlindTest;
import org.trebleproof.bench.mod.listen.Rendering;
import org.trebleproof.report.words.ListeningText;

/** What was rendered and heard, for another program. */
public final class ListeningJson {

  private ListeningJson() {}

  /**
   * All of it for another program.
   *
   * @param change what the change does, in a sentence
   */
  public static String text(String change, Rendering r, Optional<BlindTest.Score> score) {
    Map<String, Object> tree =
        JsonTree.object(
            "trebleproof",
            1,
            "verdict",
            change + " " + ListeningText.verdict(r, score),
            "loudnessBefore",
            r.loudnessBefore(),
            "loudnessAfter",
            r.loudnessAfter(),
            "matched",
            r.matched(),
            "synthetic",
            r.synthetic(),
            "blindTest",
            score.map(
                s -> JsonTree.object("right", s.right(), "trials", s.trials(), "p", s.chance())));
    return JsonTree.text(tree);
  }
}
