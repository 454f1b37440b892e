package org.trebleproof.report.page;

import java.util.ArrayList;
import java.util.List;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.Setup;

/** What could hurt a person or an instrument in this measurement, and nothing else. */
public final class Cautions {

  private Cautions() {}

  public static List<String> of(FitResult result) {
    List<String> cautions = new ArrayList<>();
    cautions.add(
        "Measure with the instrument unplugged from any amplifier: its lead goes to the recorder"
            + " and nowhere else.");
    if (result.strikes().isEmpty()) {
      cautions.add(
          "Start the sweep quiet, headphones off and loudspeakers muted, and raise it only until the"
              + " recorder's meter stands well below full scale.");
    }
    if (partsWereChanged(result)) {
      cautions.add(
          "Solder with the lead pulled out, in moving air and with the iron in its stand; wash your"
              + " hands after leaded solder.");
    }
    cautions.add(
        "Nothing here asks for an amplifier to be opened. Its capacitors hold a dangerous voltage"
            + " after the plug is out: that is work for a qualified person, under the local"
            + " electrical code. Never lift the protective earth.");
    return cautions;
  }

  private static boolean partsWereChanged(FitResult result) {
    List<Setup> setups = List.copyOf(result.job().setups().values());
    for (Setup setup : setups) {
      Setup first = setups.get(0);
      boolean same =
          setup.pickup().equals(first.pickup())
              && setup
                  .volume()
                  .map(Setup.PotUse::part)
                  .equals(first.volume().map(Setup.PotUse::part))
              && setup.tone().map(Setup.PotUse::part).equals(first.tone().map(Setup.PotUse::part))
              && setup.toneCapacitor().equals(first.toneCapacitor())
              && setup.extras().equals(first.extras());
      if (!same) {
        return true;
      }
    }
    return false;
  }
}
