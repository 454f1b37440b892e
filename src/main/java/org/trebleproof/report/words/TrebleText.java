package org.trebleproof.report.words;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.trebleproof.bench.answer.TrebleLoss;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;

/** What takes the treble, as a sentence and as a table for a terminal. */
public final class TrebleText {

  private static final int WIDTH = 98;
  private static final int LABEL = 32;
  private static final int CELL = 18;
  private static final int WIDE_CELL = 33;
  private static final int MOST_OTHERS = 3;

  /** Less than this is not worth a word [dB]. */
  private static final double LEAST = 0.05;

  /** Less than this is printed as nothing [dB]. */
  private static final double PRINTED = 0.005;

  private TrebleText() {}

  /** The worst of it with its place, and what else takes something there. */
  public static String sentence(TrebleLoss loss) {
    List<TrebleLoss.Share> takers =
        loss.shares().stream().filter(s -> s.there().value() >= LEAST).toList();
    if (takers.isEmpty()) {
      return "Nothing takes treble here, held against " + loss.against() + ".";
    }
    TrebleLoss.Share worst = takers.get(0);
    List<String> others =
        takers.stream()
            .skip(1)
            .limit(MOST_OTHERS)
            .map(s -> "the " + s.name() + " " + EstimateText.full(s.there()))
            .toList();
    return "The "
        + worst.name()
        + (others.isEmpty() ? " takes it: " : " takes most: ")
        + EstimateText.full(worst.there())
        + " at "
        + place(loss)
        + (others.isEmpty() ? "" : "; " + Sentence.listed(others))
        + ".";
  }

  /** The third octave in question. */
  public static String place(TrebleLoss loss) {
    return Place.of(loss.hz());
  }

  /** Against what, in a sentence for the head of a table. */
  public static String against(TrebleLoss loss) {
    return "held against " + loss.against();
  }

  /**
   * Shares side by side for some wirings; of one alone also what of it is heard.
   *
   * @param single whether only one frequency was asked for
   */
  static List<String> table(List<TrebleLoss> losses, boolean single, TextStyle style) {
    List<String> lines = new ArrayList<>();
    boolean heard = losses.size() == 1 && !single;
    int cell = losses.size() > 1 ? WIDE_CELL : CELL;
    String head = "What takes the treble, " + against(losses.get(0));
    Wrapped.lines(head, WIDTH, "  ").forEach(line -> lines.add(style.faint(line)));
    StringBuilder header = new StringBuilder(padded("", LABEL));
    for (TrebleLoss loss : losses) {
      header.append(
          padded((losses.size() > 1 ? loss.wiring() + ", " : "") + "at " + place(loss), cell));
      if (heard) {
        header.append(padded("as heard", cell));
      }
    }
    lines.add(style.faint(header.toString().stripTrailing()));
    for (String cause : causes(losses)) {
      StringBuilder line = new StringBuilder(padded("  " + cause, LABEL));
      for (TrebleLoss loss : losses) {
        Optional<TrebleLoss.Share> share = named(loss, cause);
        line.append(padded(share.map(s -> EstimateText.full(s.there())).orElse(""), cell));
        if (heard) {
          line.append(padded(share.map(s -> EstimateText.full(s.heard())).orElse(""), cell));
        }
      }
      lines.add(line.toString().stripTrailing());
    }
    StringBuilder all = new StringBuilder(padded("  all together", LABEL));
    for (TrebleLoss loss : losses) {
      all.append(padded(EstimateText.full(loss.there()), cell));
      if (heard) {
        all.append(padded(EstimateText.full(loss.heard()), cell));
      }
    }
    lines.add(all.toString().stripTrailing());
    return lines;
  }

  /** The causes of all wirings, those of the first one first. */
  private static List<String> causes(List<TrebleLoss> losses) {
    return losses.stream()
        .flatMap(l -> l.shares().stream())
        .filter(TrebleText::counts)
        .map(TrebleLoss.Share::name)
        .distinct()
        .toList();
  }

  private static Optional<TrebleLoss.Share> named(TrebleLoss loss, String name) {
    return loss.shares().stream().filter(s -> s.name().equals(name)).findFirst();
  }

  /** What takes nothing at all stands in no table. */
  public static boolean counts(TrebleLoss.Share share) {
    return counts(share.there()) || counts(share.heard());
  }

  private static boolean counts(Estimate e) {
    return e.value() >= PRINTED;
  }

  private static String padded(String text, int width) {
    return text.length() >= width ? text + " " : text + " ".repeat(width - text.length());
  }
}
