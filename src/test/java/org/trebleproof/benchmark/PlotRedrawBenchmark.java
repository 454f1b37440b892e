package org.trebleproof.benchmark;

import java.util.List;
import java.util.Random;
import java.util.concurrent.Callable;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import javafx.application.Platform;
import javafx.scene.Scene;
import javafx.scene.layout.TilePane;
import javafx.stage.Stage;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.TearDown;
import org.openjdk.jmh.annotations.Warmup;
import org.trebleproof.desktop.plot.PlotGroup;
import org.trebleproof.desktop.plot.PlotPane;
import org.trebleproof.report.plot.FrequencyPlot;
import org.trebleproof.report.plot.FrequencyPlot.Series;
import org.trebleproof.report.plot.FrequencyPlot.Shape;
import org.trebleproof.report.plot.FrequencyPlot.Side;
import org.trebleproof.report.plot.ValueAxis;

/**
 * Four plots in a window of 1280 x 800, each with a measured series, its band and a modelled line
 * of 2,000 points. A redraw is measured from the change to the finished picture, in software and
 * with the picture read back, so it is the most that a frame can cost. Wanted: under 16.7 ms.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 3, time = 3)
@Measurement(iterations = 5, time = 3)
@Fork(
    value = 1,
    jvmArgs = {
      "-Djava.awt.headless=true",
      "-Dglass.platform=Monocle",
      "-Dmonocle.platform=Headless",
      "-Dprism.order=sw",
      "-Dprism.text=t2k"
    })
public class PlotRedrawBenchmark {

  private static final int POINTS = 2000;

  private final PlotGroup group = new PlotGroup();
  private TilePane panes;
  private int turn;

  @Setup
  public void open() throws Exception {
    Platform.startup(() -> {});
    onScreen(
        () -> {
          panes = new TilePane();
          panes.setPrefColumns(2);
          for (int i = 0; i < 4; i++) {
            PlotPane pane = new PlotPane(plot(i), group);
            pane.setPrefSize(640, 400);
            panes.getChildren().add(pane);
          }
          Stage stage = new Stage();
          stage.setScene(new Scene(panes, 1280, 800));
          stage.show();
          return null;
        });
  }

  @TearDown
  public void close() {
    Platform.exit();
  }

  private static FrequencyPlot plot(int seed) {
    Random random = new Random(seed);
    double[] hz = new double[POINTS];
    double[] line = new double[POINTS];
    double[] points = new double[POINTS];
    double[] low = new double[POINTS];
    double[] high = new double[POINTS];
    for (int i = 0; i < POINTS; i++) {
      hz[i] = 20 * Math.pow(1000, i / (POINTS - 1.0));
      double x = hz[i] / 3500;
      line[i] = -10 * Math.log10(Math.pow(1 - x * x, 2) + Math.pow(0.4 * x, 2));
      points[i] = line[i] + 0.3 * random.nextGaussian();
      low[i] = points[i] - 0.6;
      high[i] = points[i] + 0.6;
    }
    Side side = seed % 2 == 0 ? Side.BEFORE : Side.AFTER;
    List<Series> series =
        List.of(
            Series.bare("modelled", Shape.LINE, side, hz, line),
            new Series("measured", Shape.POINTS, side, hz, points, low, high));
    return new FrequencyPlot(
        "Level", "A peak.", 20, 20000, new ValueAxis("dB", -25, 13, 6), series, List.of());
  }

  private static <T> T onScreen(Callable<T> work) throws Exception {
    FutureTask<T> task = new FutureTask<>(work);
    Platform.runLater(task);
    return task.get();
  }

  /** Everything drawn anew, as while the wheel turns. */
  @Benchmark
  public Object redraw() throws Exception {
    return onScreen(
        () -> {
          double shift = Math.pow(2, 0.3 * Math.sin(0.1 * turn++));
          group.show(25 * shift, 14000 * shift);
          panes.getChildren().forEach(p -> ((PlotPane) p).requestLayout());
          return panes.snapshot(null, null);
        });
  }

  /** The picture without a change: what reading it back costs. */
  @Benchmark
  public Object unchanged() throws Exception {
    return onScreen(() -> panes.snapshot(null, null));
  }

  /** The cursor alone, on all four plots. */
  @Benchmark
  public Object cursor() throws Exception {
    return onScreen(
        () -> {
          group.hold(1000 * Math.pow(2, Math.sin(0.1 * turn++)));
          panes.getChildren().forEach(p -> ((PlotPane) p).requestLayout());
          return panes.snapshot(null, null);
        });
  }
}
