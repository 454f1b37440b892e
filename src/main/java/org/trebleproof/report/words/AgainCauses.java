package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.List;
import org.trebleproof.bench.answer.Budget.Source;
import org.trebleproof.shelf.sheet.ResultChange;

/** Why a recording comes out otherwise than it did, in words. */
final class AgainCauses {

  private AgainCauses() {}

  /** The likeliest first; empty where nothing tells. */
  static List<String> words(ResultChange change) {
    List<String> words = new ArrayList<>();
    if (!change.gone().isEmpty() || !change.come().isEmpty()) {
      words.add("another model of the coil fits better: " + model(change));
    }
    change.found().forEach(text -> words.add("a check says now: " + Sentence.unended(text)));
    change.silent().forEach(text -> words.add("no check says any more: " + Sentence.unended(text)));
    change.more().forEach(source -> words.add(counts(source, "more")));
    change.less().forEach(source -> words.add(counts(source, "less")));
    change.otherwise().forEach(source -> words.add("the " + source.words() + " counts otherwise"));
    return words;
  }

  /** What both models have in common is not told. */
  private static String model(ResultChange change) {
    String gone = Sentence.listed(change.gone());
    String come = Sentence.listed(change.come());
    return come.isEmpty()
        ? "without " + gone
        : gone.isEmpty() ? "with " + come : come + " in place of " + gone;
  }

  private static String counts(Source source, String how) {
    return switch (source) {
      case NOISE -> "there is taken to be " + how + " noise on the recording";
      case MODEL -> "coil models that fit alike differ " + how;
      case SERIES_RESISTOR, CHANNELS, INPUT, EXCITER, PATH ->
          "the bench's calibration is trusted "
              + (how.equals("more") ? "less" : "more")
              + " ("
              + source.words()
              + ")";
      default -> source.words() + ": counts " + how;
    };
  }
}
