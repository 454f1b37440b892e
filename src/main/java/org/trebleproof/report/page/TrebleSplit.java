package org.trebleproof.report.page;

import java.util.List;
import java.util.Locale;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.quantity.EstimateText;

/** Where the treble went: what each load takes on its own, and all of them together. */
final class TrebleSplit {

  private TrebleSplit() {}

  static String of(List<FitResult.TrebleLoss> losses) {
    StringBuilder text = new StringBuilder("<div class=\"splits\">\n");
    double most = largest(losses, 1);
    double least = largest(losses, -1);
    for (FitResult.TrebleLoss loss : losses) {
      String band =
          String.format(Locale.ROOT, "%.0f to %.0f kHz", loss.lowHz() / 1000, loss.highHz() / 1000);
      text.append("<div>")
          .append(Html.element("h3", Sentences.capitalised(loss.setup()) + ", " + band));
      text.append("\n<table class=\"loss\"><tbody>\n");
      int last = loss.shares().size() - 1;
      for (int i = 0; i <= last; i++) {
        append(text, loss.shares().get(i), i == last && last > 0, most, least);
      }
      text.append("</tbody></table></div>\n");
    }
    return text.append("</div>\n").toString();
  }

  /** The largest loss, or with a negative sign the largest gain; at least 0 [dB]. */
  private static double largest(List<FitResult.TrebleLoss> losses, int sign) {
    return losses.stream()
        .flatMap(l -> l.shares().stream())
        .mapToDouble(s -> sign * s.loss().value())
        .reduce(0, Math::max);
  }

  private static void append(
      StringBuilder text,
      FitResult.TrebleLoss.Share share,
      boolean all,
      double most,
      double least) {
    text.append(all ? "<tr class=\"all\">" : "<tr>");
    text.append("<th scope=\"row\">");
    text.append(Html.text(all ? "all together" : share.load() + " alone"));
    text.append("</th>").append(Html.element("td", "number", EstimateText.full(share.loss())));
    double scale = 100 / Math.max(1e-9, most + least);
    double value = share.loss().value();
    text.append(
        String.format(
            Locale.ROOT,
            "<td class=\"bar\"><span%s style=\"margin-left:%.1f%%;width:%.1f%%\"></span></td></tr>\n",
            value < 0 ? " class=\"gain\"" : "",
            scale * (least + Math.min(0, value)),
            scale * Math.abs(value)));
  }
}
