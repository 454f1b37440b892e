package org.trebleproof.desktop.place;

import java.util.List;
import java.util.Optional;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.TitledPane;
import javafx.scene.layout.VBox;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.answer.Slip;
import org.trebleproof.desktop.draft.JobDraft;
import org.trebleproof.desktop.place.order.BeginSheet;
import org.trebleproof.desktop.place.order.FirstSheet;
import org.trebleproof.desktop.place.piece.EstimateGrid;
import org.trebleproof.desktop.place.piece.FindingCard;
import org.trebleproof.desktop.place.piece.Lettering;
import org.trebleproof.desktop.place.piece.SteadyRoom;
import org.trebleproof.desktop.plot.PlotFrame;
import org.trebleproof.desktop.plot.PlotGroup;
import org.trebleproof.desktop.plot.PlotPane;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.Workbench;
import org.trebleproof.desktop.work.WorkedOut;
import org.trebleproof.quantity.Finding;
import org.trebleproof.report.page.Cautions;
import org.trebleproof.report.page.PairOfPlots;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.words.AdviceText;
import org.trebleproof.report.words.Headline;

/** The verdict: the sentence, its numbers, the pair of plots, what to mind. */
public final class VerdictPlace extends Place {

  /** Share of the height in sight that the pair takes at first. */
  private static final double LEVELS = 0.44;

  private static final double DIFFERENCE = 0.34;

  private final Workbench bench;
  private final PlotGroup group;
  private final Label stale = Lettering.styled(Texts.of("verdict.stale"), "stale");
  private final FirstSheet first;
  private final BeginSheet begin;
  private boolean asking;
  private boolean another;
  private final SteadyRoom standing = new SteadyRoom(40, "faint");
  private final SteadyRoom headline = new SteadyRoom(180, "lead");

  /** The verdict of a bench. */
  public VerdictPlace(Workbench bench, FirstSheet first) {
    super("verdict-place");
    this.bench = bench;
    this.first = first;
    group = plotsOf(bench);
    begin =
        new BeginSheet(
            bench,
            () -> {
              asking = false;
              show(bench.verdictProperty().get());
            });
    bench.jobsProperty().addListener(o -> headline.forget());
    bench.jobsProperty().addListener(o -> another = true);
    bench.draftProperty().addListener((o, old, now) -> ask(now));
    bench.verdictProperty().addListener((o, old, now) -> show(now));
    bench.workingProperty().addListener((o, old, now) -> showStale());
    bench.problemProperty().addListener((o, old, now) -> showStale());
    bench.nextProperty().addListener((o, old, now) -> showStale());
    show(bench.verdictProperty().get());
  }

  /** Another job is asked anew; its answers do not end the questions, the person does. */
  private void ask(Optional<JobDraft> job) {
    if (another) {
      another = false;
      asking = job.filter(BeginSheet::isFor).isPresent();
      show(bench.verdictProperty().get());
    }
  }

  private void showStale() {
    boolean behind = bench.workingProperty().get() || bench.problemProperty().get().isPresent();
    boolean problem = bench.problemProperty().get().isPresent();
    stale.setText(Texts.of(problem ? "verdict.problem" : "verdict.stale"));
    stale.setVisible(behind && bench.verdictProperty().get().isPresent());
    if (bench.verdictProperty().get().isEmpty() && !asking) {
      writeNothing();
    }
  }

  private void show(Optional<WorkedOut> verdict) {
    if (asking) {
      write(begin);
      return;
    }
    if (verdict.isPresent()) {
      write(verdict.get());
    } else {
      writeNothing();
    }
    showStale();
  }

  private void writeNothing() {
    if (bench.draftProperty().get().isEmpty()) {
      first.refresh();
      write(first);
    } else if (bench.workingProperty().get()) {
      write(Lettering.styled(Texts.of("next.wait"), "lead"));
    } else {
      write(
          Lettering.styled(Texts.of("verdict.none"), "lead"),
          Lettering.text(Texts.of("verdict.none.next", bench.nextProperty().get().text())));
    }
  }

  private void write(WorkedOut verdict) {
    FitResult result = verdict.result();
    headline.hold(Lettering.sentence(Headline.of(result), "lead"));
    standing.hold(stale);
    write(standing, headline);
    if (result.verdict().refused()) {
      add(refusal(result));
      result.slips().forEach(this::offer);
    } else {
      findings(result.verdict().errors());
      add(EstimateGrid.key(verdict));
      for (FitResult each : result.pairs()) {
        PairOfPlots pair = new PairOfPlots(each);
        pair.levels().ifPresent(p -> add(plot(p, "levels")));
        pair.difference().ifPresent(p -> add(plot(p, "difference")));
      }
    }
    findings(result.verdict().warnings());
    if (!result.advice().isEmpty()) {
      add(Lettering.heading(Texts.of("verdict.advice")));
      result.advice().forEach(a -> add(Lettering.text("· " + AdviceText.of(result, a))));
    }
    if (!result.rows().isEmpty()) {
      TitledPane all = new TitledPane(Texts.of("verdict.all"), EstimateGrid.all(verdict));
      all.setExpanded(false);
      all.setAnimated(false);
      add(all);
    }
    findings(result.verdict().notes());
    add(Lettering.heading(Texts.of("verdict.care")));
    Cautions.of(result).forEach(c -> add(Lettering.faint("· " + c)));
  }

  /** A slip that was probably made is put right by a button, and taken back like any edit. */
  private void offer(Slip slip) {
    Button take = new Button(Texts.of("slip.take", slip.what()));
    take.getStyleClass().add("slip");
    take.setWrapText(true);
    take.setOnAction(e -> bench.edit(Texts.of("slip.edit"), job -> job.with(slip.edits())));
    add(take);
  }

  private Node plot(FrequencyPlot plot, String id) {
    PlotPane pane = new PlotPane(plot, group);
    pane.setId("plot-" + id);
    pane.getStyleClass().add(id);
    return new PlotFrame(pane, this, share(id, id.equals("levels") ? LEVELS : DIFFERENCE));
  }

  private void findings(List<Finding> some) {
    some.forEach(f -> add(new FindingCard(f)));
  }

  /** What stands where the plots cannot. */
  static VBox refusal(FitResult result) {
    VBox box = new VBox(Lettering.styled(Texts.of("refused.all"), "refused-title"));
    box.getStyleClass().add("refused");
    result.verdict().errors().forEach(f -> box.getChildren().add(new FindingCard(f)));
    return box;
  }
}
