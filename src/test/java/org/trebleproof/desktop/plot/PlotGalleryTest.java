package org.trebleproof.desktop.plot;

import static org.junit.jupiter.api.Assertions.assertTrue;

import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import org.junit.jupiter.api.Test;
import org.testfx.util.WaitForAsyncUtils;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.report.ExampleResults;
import org.trebleproof.report.page.CapturePlots;
import org.trebleproof.report.page.PairOfPlots;

/** Pictures of the plots in every look, for somebody to look at. */
class PlotGalleryTest {

  @Test
  void pairWithCursors() throws Exception {
    FitResult result = ExampleResults.potSwap();
    PlotGroup group = new PlotGroup();
    VBox box =
        Gallery.shown(
            () -> {
              PairOfPlots pair = new PairOfPlots(result);
              VBox two =
                  new VBox(
                      8,
                      new PlotPane(pair.levels().orElseThrow(), group),
                      new PlotPane(pair.difference().orElseThrow(), group));
              two.getChildren().forEach(p -> VBox.setVgrow(p, Priority.ALWAYS));
              return two;
            },
            860,
            620);
    Gallery.keep(box, "plot-pair");
    WaitForAsyncUtils.waitForAsyncFx(
        5000,
        () -> {
          group.mark(1000);
          group.hold(3400);
          return null;
        });
    Gallery.keep(box, "plot-pair-cursors");
    WaitForAsyncUtils.waitForAsyncFx(
        5000,
        () -> {
          group.clearCursors();
          group.show(2500, 5200);
          return null;
        });
    Gallery.keep(box, "plot-pair-closer");
    assertTrue(group.canGoBackProperty().get());
  }

  @Test
  void evidence() throws Exception {
    FitResult result = ExampleResults.potSwap();
    PlotGroup group = new PlotGroup();
    VBox box =
        Gallery.shown(
            () -> {
              CapturePlots plots = new CapturePlots(result);
              FitResult.CaptureFit capture = result.captures().get(result.captures().size() - 1);
              VBox all =
                  new VBox(
                      8,
                      new PlotPane(plots.level(capture), group),
                      new PlotPane(plots.phase(capture), group),
                      new PlotPane(plots.residual(capture).orElseThrow(), group));
              all.getChildren().forEach(p -> VBox.setVgrow(p, Priority.ALWAYS));
              return all;
            },
            860,
            800);
    Gallery.keep(box, "plot-evidence");
    assertTrue(box.getChildren().stream().allMatch(p -> p.getAccessibleText().endsWith(".")));
  }
}
