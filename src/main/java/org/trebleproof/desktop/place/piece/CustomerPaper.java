package org.trebleproof.desktop.place.piece;

import java.util.Optional;
import javafx.scene.control.Label;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.Job;
import org.trebleproof.desktop.plot.PlotGroup;
import org.trebleproof.desktop.plot.PlotPane;
import org.trebleproof.desktop.text.Texts;
import org.trebleproof.desktop.work.WorkedOut;
import org.trebleproof.quantity.Finding;
import org.trebleproof.report.page.PairOfPlots;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.words.Headline;

/**
 * The customer's sheet as it is printed from the window: one A4 page, dark on light whatever the
 * window's colours are.
 */
public final class CustomerPaper extends VBox {

  /** A4 (ISO 216) with 192 points to the inch, so that curves are sharp on paper. */
  public static final double WIDTH = 1588;

  public static final double HEIGHT = 2246;

  private static final double LEVELS = 520;
  private static final double DIFFERENCE = 340;

  /** The sheet of a verdict, written on a day. */
  public CustomerPaper(WorkedOut verdict, String date) {
    getStyleClass().addAll("bench", "light", "customer-paper");
    setMinSize(WIDTH, HEIGHT);
    setPrefSize(WIDTH, HEIGHT);
    setMaxSize(WIDTH, HEIGHT);
    setMouseTransparent(true);
    FitResult result = verdict.result();
    Job.Heading heading = result.job().heading();
    HBox top =
        new HBox(
            Lettering.faint(heading.bench().orElse(Texts.of("paper.bench"))),
            between(),
            Lettering.faint(Texts.of("paper.with", date)));
    getChildren().add(top);
    getChildren().add(Lettering.styled(result.job().title(), "paper-title"));
    heading("heading.customer", heading.customer());
    heading("heading.instrument", heading.instrument());
    // Read, not selected: the sentence itself stands above.
    getChildren().add(Lettering.styled(Headline.of(result), "lead"));
    if (result.verdict().refused()) {
      for (Finding finding : result.verdict().errors()) {
        getChildren().add(new FindingCard(finding));
      }
      return;
    }
    getChildren().add(EstimateGrid.key(verdict));
    PairOfPlots pair = new PairOfPlots(result.pairs().get(0));
    PlotGroup group = new PlotGroup();
    pair.levels().ifPresent(p -> getChildren().add(plot(p, group, LEVELS)));
    pair.difference().ifPresent(p -> getChildren().add(plot(p, group, DIFFERENCE)));
    getChildren().add(Lettering.faint(Texts.of("paper.bands")));
    Region rest = new Region();
    VBox.setVgrow(rest, Priority.ALWAYS);
    getChildren().addAll(rest, signature());
  }

  private static Region between() {
    Region between = new Region();
    HBox.setHgrow(between, Priority.ALWAYS);
    return between;
  }

  private void heading(String key, Optional<String> words) {
    words.ifPresent(w -> getChildren().add(Lettering.text(Texts.of("paper.of", Texts.of(key), w))));
  }

  private static PlotPane plot(FrequencyPlot plot, PlotGroup group, double height) {
    PlotPane pane = new PlotPane(plot, group);
    pane.setMinHeight(height);
    pane.setPrefHeight(height);
    pane.setMaxHeight(height);
    return pane;
  }

  private static HBox signature() {
    HBox line = new HBox(line("paper.place"), line("paper.signature"));
    line.getStyleClass().add("paper-signature");
    return line;
  }

  private static Label line(String key) {
    Label label = Lettering.faint(Texts.of(key));
    label.setMaxWidth(Double.MAX_VALUE);
    label.getStyleClass().add("paper-line");
    HBox.setHgrow(label, Priority.ALWAYS);
    return label;
  }
}
