package org.trebleproof.desktop.place;

import java.util.List;
import java.util.Optional;
import javafx.beans.binding.Bindings;
import javafx.scene.Node;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.VBox;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.StrikeEvidence;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.desktop.place.piece.FindingCard;
import org.trebleproof.desktop.place.piece.Lettering;
import org.trebleproof.desktop.plot.PlotFrame;
import org.trebleproof.desktop.plot.PlotGroup;
import org.trebleproof.desktop.plot.PlotPane;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.Workbench;
import org.trebleproof.desktop.work.WorkedOut;
import org.trebleproof.quantity.Finding;
import org.trebleproof.report.page.CapturePlots;
import org.trebleproof.report.page.Refused;
import org.trebleproof.report.page.StrikePlots;
import org.trebleproof.report.page.StrikeTable;
import org.trebleproof.report.plot.FrequencyPlot;

/** The evidence, capture by capture; a refused one is never drawn as if it were data. */
public final class EvidencePlace extends Place {

  /** More captures than this on one sheet would be a wall. */
  private static final int MOST = 12;

  /** A plot is at least this wide, in sizes of type. */
  private static final double LEAST_PLOT = 24;

  /** Share of the height in sight that a plot takes at first. */
  private static final double SMALL = 0.36;

  private final Label type = Lettering.text(Texts.of("evidence.words"));
  private final PlotGroup group;
  private int first;

  /** The evidence of a bench. */
  public EvidencePlace(Workbench bench) {
    super("evidence-place");
    group = plotsOf(bench);
    bench
        .verdictProperty()
        .addListener(
            (o, old, now) -> {
              first = 0;
              show(now);
            });
    show(bench.verdictProperty().get());
  }

  private void show(Optional<WorkedOut> verdict) {
    write(Lettering.styled(Texts.of("evidence.title"), "lead"), type);
    if (verdict.isEmpty()) {
      add(Lettering.text(Texts.of("evidence.empty")));
      return;
    }
    FitResult result = verdict.get().result();
    Refused refused = new Refused(result);
    if (result.strikes().isPresent() && !result.verdict().refused()) {
      strikes(result, result.strikes().get());
      return;
    }
    CapturePlots plots = new CapturePlots(result);
    List<CaptureEntry> captures = result.job().captures();
    int last = Math.min(captures.size(), first + MOST);
    for (CaptureEntry entry : captures.subList(first, last)) {
      add(Lettering.heading(entry.id()));
      add(refused.covers(entry) ? refusal(refused, entry) : evidence(result, plots, entry));
    }
    if (captures.size() > MOST) {
      FlowPane turn = new FlowPane();
      turn.getStyleClass().add("buttons");
      turn.getChildren()
          .add(Lettering.faint(Texts.of("evidence.some", first + 1, last, captures.size())));
      if (first > 0) {
        turn.getChildren()
            .add(Lettering.button(Texts.of("evidence.earlier"), () -> turn(verdict, -MOST)));
      }
      if (last < captures.size()) {
        turn.getChildren()
            .add(Lettering.button(Texts.of("evidence.later"), () -> turn(verdict, MOST)));
      }
      add(turn);
    }
  }

  /** Of strikes the evidence goes note by note: a recording alone has no curve. */
  private void strikes(FitResult result, StrikeEvidence evidence) {
    for (StrikeEvidence.Capture capture : evidence.captures()) {
      add(Lettering.heading(capture.id()), Lettering.text(StrikeTable.sentence(capture)));
    }
    StrikePlots plots = new StrikePlots(result);
    if (plots.notes().isEmpty()) {
      return;
    }
    add(
        Lettering.heading(Texts.of("evidence.notes")),
        Lettering.faint(Texts.of("evidence.notes.words")));
    FlowPane notes = new FlowPane();
    notes.getStyleClass().add("plots");
    draw(notes, plots);
    if (plots.others().size() > 1) {
      add(choice(notes, plots));
    }
    add(notes);
  }

  private void draw(FlowPane notes, StrikePlots plots) {
    notes
        .getChildren()
        .setAll(plots.notes().stream().limit(MOST).map(n -> plot(plots.note(n))).toList());
  }

  /** Of more than two conditions two are drawn, the second as wanted. */
  private FlowPane choice(FlowPane notes, StrikePlots plots) {
    ComboBox<String> other = new ComboBox<>();
    other.setId("evidence-other");
    other.setAccessibleText(Texts.of("evidence.beside", plots.shown().get(0)));
    other.getItems().setAll(plots.others());
    other.setValue(plots.shown().get(1));
    other.valueProperty().addListener((o, old, now) -> draw(notes, plots.beside(now)));
    FlowPane row =
        new FlowPane(Lettering.text(Texts.of("evidence.beside", plots.shown().get(0))), other);
    row.getStyleClass().add("buttons");
    return row;
  }

  private void turn(Optional<WorkedOut> verdict, int by) {
    first += by;
    show(verdict);
    setVvalue(0);
  }

  private Node evidence(FitResult result, CapturePlots plots, CaptureEntry entry) {
    FitResult.CaptureFit capture =
        result.captures().stream().filter(c -> c.id().equals(entry.id())).findFirst().orElseThrow();
    FlowPane pair = new FlowPane();
    pair.getStyleClass().add("plots");
    pair.getChildren().add(plot(plots.level(capture)));
    pair.getChildren().add(plot(plots.phase(capture)));
    plots.residual(capture).ifPresent(p -> pair.getChildren().add(plot(p)));
    return pair;
  }

  private Node plot(FrequencyPlot plot) {
    PlotPane pane = new PlotPane(plot, group);
    pane.getStyleClass().add("small");
    PlotFrame box = new PlotFrame(pane, this, share("captures", SMALL));
    pane.prefWidthProperty()
        .bind(Bindings.createDoubleBinding(this::plotWidth, widthProperty(), type.fontProperty()));
    // a flow asks no less width than its children prefer, and its words alone would take one line
    box.prefWidthProperty().bind(pane.prefWidthProperty());
    box.maxWidthProperty().bind(pane.prefWidthProperty());
    return box;
  }

  /** Two plots beside each other where there is room for them. */
  private double plotWidth() {
    double em = type.getFont().getSize();
    double inner = getWidth() - 6.2 * em;
    double half = (inner - 1.4 * em) / 2;
    return half < LEAST_PLOT * em ? inner : half;
  }

  private static VBox refusal(Refused refused, CaptureEntry entry) {
    List<Finding> about = refused.about(entry);
    String key = about.isEmpty() ? "refused.unused" : "refused.one";
    VBox box = new VBox(Lettering.styled(Texts.of(key, entry.id()), "refused-title"));
    box.getStyleClass().add("refused");
    (about.isEmpty() ? refused.withdrawing() : about)
        .forEach(f -> box.getChildren().add(new FindingCard(f)));
    return box;
  }
}
