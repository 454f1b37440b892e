package org.trebleproof.report.page;

import java.util.List;
import java.util.Locale;
import org.trebleproof.bench.FitResult;
import org.trebleproof.report.EstimateText;

/** Where the treble went: what each load takes on its own, and all of them together. */
final class TrebleSplit {

  private TrebleSplit() {}

  static String of(List<FitResult.TrebleLoss> losses) {
    StringBuilder text = new StringBuilder("<div class=\"splits\">\n");
    double most =
        losses.stream()
            .flatMap(l -> l.shares().stream())
            .mapToDouble(s -> s.loss().value())
            .max()
            .orElse(0);
    for (FitResult.TrebleLoss loss : losses) {
      String band =
          String.format(Locale.ROOT, "%.0f to %.0f kHz", loss.lowHz() / 1000, loss.highHz() / 1000);
      text.append("<div>")
          .append(Html.element("h3", Sentences.capitalised(loss.setup()) + ", " + band));
      text.append("\n<table class=\"loss\"><tbody>\n");
      int last = loss.shares().size() - 1;
      for (int i = 0; i <= last; i++) {
        append(text, loss.shares().get(i), i == last && last > 0, most);
      }
      text.append("</tbody></table></div>\n");
    }
    return text.append("</div>\n").toString();
  }

  private static void append(
      StringBuilder text, FitResult.TrebleLoss.Share share, boolean all, double most) {
    double width = most > 0 ? Math.max(0, 100 * share.loss().value() / most) : 0;
    text.append(all ? "<tr class=\"all\">" : "<tr>");
    text.append("<th scope=\"row\">");
    text.append(Html.text(all ? "all together" : share.load() + " alone"));
    text.append(
        "</th><td class=\"number\">" + Html.text(EstimateText.full(share.loss())) + "</td>");
    text.append(
        String.format(
            Locale.ROOT,
            "<td class=\"bar\"><span style=\"width:%.1f%%\"></span></td></tr>\n",
            width));
  }
}
