package org.trebleproof.report.page;

import java.util.List;
import java.util.Locale;
import org.trebleproof.bench.answer.TrebleLoss;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;
import org.trebleproof.report.words.TrebleText;

/** What takes the treble of each setup: shares that add up. */
final class TrebleSplit {

  private TrebleSplit() {}

  /** How to read such shares, in one or two sentences. */
  static String words(TrebleLoss loss) {
    return TrebleText.against(loss)
        + ". Each share is averaged over every order in which the causes could have come, and they"
        + " add up. The worst cause is the one of which most is heard, from 1 to 8 kHz, by what a"
        + " plucked string sends there and by the ear's sensitivity; it stands at the third octave"
        + " where most of it is heard.";
  }

  static String of(List<TrebleLoss> losses) {
    StringBuilder text = new StringBuilder("<div class=\"splits\">\n");
    double most = losses.stream().mapToDouble(l -> l.there().value()).reduce(1e-9, Math::max);
    for (TrebleLoss loss : losses) {
      text.append("<div>")
          .append(
              Html.element(
                  "h3", Sentences.capitalised(loss.wiring()) + ", at " + TrebleText.place(loss)));
      text.append("\n<table class=\"loss\"><tbody>\n");
      for (TrebleLoss.Share share : loss.shares()) {
        if (TrebleText.counts(share)) {
          append(text, share.name(), share.there(), "<tr>", most);
        }
      }
      append(text, "all together", loss.there(), "<tr class=\"all\">", most);
      text.append("</tbody></table>");
      text.append(Html.element("p", "caption", TrebleText.sentence(loss))).append("</div>\n");
    }
    return text.append("</div>\n").toString();
  }

  private static void append(
      StringBuilder text, String name, Estimate taken, String row, double most) {
    text.append(row).append("<th scope=\"row\">").append(Html.text(name));
    text.append("</th>").append(Html.element("td", "number", EstimateText.full(taken)));
    text.append(
        String.format(
            Locale.ROOT,
            "<td class=\"bar\"><span style=\"width:%.1f%%\"></span></td></tr>\n",
            100 * taken.value() / most));
  }
}
