package org.trebleproof.desktop.plot;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.DoubleSummaryStatistics;
import javafx.geometry.Point2D;
import javafx.scene.image.PixelReader;
import javafx.scene.input.Clipboard;
import javafx.scene.input.KeyCode;
import javafx.scene.input.MouseButton;
import javafx.scene.input.ScrollEvent;
import javafx.scene.layout.VBox;
import javafx.scene.paint.Color;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.testfx.api.FxRobot;
import org.testfx.util.WaitForAsyncUtils;
import org.trebleproof.report.ExampleResults;
import org.trebleproof.report.page.PairOfPlots;
import org.trebleproof.report.plot.FrequencyPlot;

/** Two linked plots under pointer and keys. */
class PlotPaneTest {

  private final FxRobot robot = new FxRobot();
  private PlotGroup group;
  private PlotPane levels;
  private PlotPane difference;

  @BeforeEach
  void open() throws Exception {
    PairOfPlots pair = new PairOfPlots(ExampleResults.potSwap());
    group = new PlotGroup();
    Gallery.shown(
        () -> {
          levels = new PlotPane(pair.levels().orElseThrow(), group);
          difference = new PlotPane(pair.difference().orElseThrow(), group);
          return new VBox(levels, difference);
        },
        800,
        600);
    onScreen(() -> levels.requestFocus());
    robot.moveTo(new Point2D(1200, 780));
  }

  private void onScreen(Runnable work) throws Exception {
    WaitForAsyncUtils.waitForAsyncFx(
        10000,
        () -> {
          work.run();
          return null;
        });
    Gallery.frames(2);
  }

  private Point2D place(PlotPane pane, double share, double height) {
    PlotGeometry g = pane.geometry();
    return pane.localToScreen(g.left() + share * g.width(), g.top() + height * g.height());
  }

  @Test
  void keysMoveCursorsZoomAndGoBack() throws Exception {
    robot.press(KeyCode.RIGHT).release(KeyCode.RIGHT);
    double middle = group.cursorProperty().get();
    assertEquals(group.span().at(0.5), middle, 1e-6);
    robot.press(KeyCode.PAGE_UP).release(KeyCode.PAGE_UP);
    assertEquals(2 * middle, group.cursorProperty().get(), 1e-6);
    robot.press(KeyCode.SHIFT, KeyCode.HOME).release(KeyCode.HOME, KeyCode.SHIFT);
    assertEquals(80, group.markProperty().get(), 1e-6);
    robot.press(KeyCode.UP).release(KeyCode.UP);
    assertEquals(0.7 * Math.log(14000 / 80.0) / Math.log(2), group.span().octaves(), 1e-6);
    robot.press(KeyCode.BACK_SPACE).release(KeyCode.BACK_SPACE);
    assertEquals(new FrequencySpan(80, 14000), group.span());
    robot.press(KeyCode.ALT, KeyCode.RIGHT).release(KeyCode.RIGHT, KeyCode.ALT);
    assertTrue(group.span().octaves() < 6);
    robot.press(KeyCode.ESCAPE).release(KeyCode.ESCAPE);
    assertTrue(Double.isNaN(group.cursorProperty().get()));
    assertTrue(levels.isFocused());
  }

  @Test
  void pointerReadsHoldsAndFrames() throws Exception {
    robot.moveTo(place(levels, 0.5, 0.5));
    assertEquals(group.span().at(0.5), group.cursorProperty().get(), 20);
    robot.clickOn(MouseButton.PRIMARY);
    robot.moveTo(place(levels, 0.7, 0.5));
    assertEquals(new FrequencySpan(80, 14000).at(0.5), group.cursorProperty().get(), 20);
    assertTrue(levels.getAccessibleText().contains("kHz before, modelled"));
    robot.drag(place(levels, 0.6, 0.5), MouseButton.PRIMARY).dropTo(place(levels, 0.8, 0.52));
    assertEquals(new FrequencySpan(80, 14000).at(0.6), group.span().lowHz(), 30);
    assertEquals(new FrequencySpan(80, 14000).at(0.8), group.span().highHz(), 60);
    robot.moveTo(place(difference, 0.5, 0.5)).press(MouseButton.BACK).release(MouseButton.BACK);
    group.showWhole();
    assertEquals(new FrequencySpan(80, 14000), group.span());
  }

  @Test
  void pageScrollsOverAPlotWithoutFocus() throws Exception {
    turnWheelOver(difference);
    assertEquals(new FrequencySpan(80, 14000), group.span());
    turnWheelOver(levels);
    assertEquals(
        Math.log(14000 / 80.0) * Math.exp(-0.004 * 40),
        Math.log(group.span().highHz() / group.span().lowHz()),
        1e-6);
  }

  private void turnWheelOver(PlotPane pane) throws Exception {
    PlotGeometry g = pane.geometry();
    double x = (g.left() + g.right()) / 2;
    double y = (g.top() + g.bottom()) / 2;
    onScreen(
        () ->
            pane.fireEvent(
                new ScrollEvent(
                    ScrollEvent.SCROLL,
                    x,
                    y,
                    x,
                    y,
                    false,
                    false,
                    false,
                    false,
                    false,
                    false,
                    0,
                    40,
                    0,
                    40,
                    ScrollEvent.HorizontalTextScrollUnits.NONE,
                    0,
                    ScrollEvent.VerticalTextScrollUnits.NONE,
                    0,
                    0,
                    null)));
  }

  @Test
  void movingTheCursorDrawsNoCurve() throws Exception {
    int before = levels.drawings() + difference.drawings();
    for (double hz : new double[] {500, 700, 900}) {
      onScreen(() -> group.hold(hz));
    }
    assertEquals(before, levels.drawings() + difference.drawings());
  }

  @Test
  void manyChangesInOneFrameAreDrawnOnce() throws Exception {
    int before = levels.drawings();
    onScreen(
        () -> {
          for (int i = 0; i < 200; i++) {
            group.turn(1000, 0.995);
          }
        });
    assertEquals(before + 1, levels.drawings());
  }

  @Test
  void aWiderPlotWidensTheOthers() throws Exception {
    int before = levels.drawings();
    onScreen(
        () -> {
          FrequencyPlot p = difference.plotProperty().get();
          difference.plotProperty().set(p.within(20, 20000, p.axis()));
        });
    assertEquals(new FrequencySpan(20, 20000), levels.geometry().span());
    assertEquals(before + 1, levels.drawings());
  }

  @Test
  void saysWhatItShows() {
    assertTrue(difference.getAccessibleText().startsWith("After against before: "));
  }

  @Test
  void coloursComeFromTheStyleSheet() throws Exception {
    onScreen(
        () ->
            levels.setStyle(
                "-plot-paper: #102030; -plot-ink: #ffffff; -plot-hair: #102030;"
                    + " -plot-rule: #102030;"));
    PixelReader pixels =
        WaitForAsyncUtils.waitForAsyncFx(5000, () -> levels.snapshot(null, null)).getPixelReader();
    assertEquals(Color.web("#102030"), pixels.getColor(1, 1));
  }

  @Test
  void copiesPictureAndTable() throws Exception {
    robot.press(KeyCode.CONTROL, KeyCode.C).release(KeyCode.C, KeyCode.CONTROL);
    Gallery.frames(1);
    String table =
        WaitForAsyncUtils.waitForAsyncFx(5000, () -> Clipboard.getSystemClipboard().getString());
    assertTrue(table.startsWith("curve,known,hz,value_dB"));
    assertFalse(levels.noticeProperty().get().isEmpty());
  }

  /** What was zoomed away is in no table. */
  @Test
  void aTableHoldsWhatIsInSight(@TempDir Path folder) throws Exception {
    Path file = folder.resolve("plot.csv");
    onScreen(() -> PlotFile.CSV.write(file, levels.inSight(), 600, 300));
    long whole = Files.lines(file).count();
    robot.press(KeyCode.UP).release(KeyCode.UP);
    FrequencySpan span = group.span();
    onScreen(() -> PlotFile.CSV.write(file, levels.inSight(), 600, 300));
    DoubleSummaryStatistics hz =
        Files.lines(file)
            .skip(1)
            .map(line -> line.replaceFirst("^\"[^\"]*\"", "curve").split(",")[2])
            .mapToDouble(Double::parseDouble)
            .summaryStatistics();
    assertTrue(hz.getCount() > 10 && hz.getCount() < whole - 10, hz.getCount() + " of " + whole);
    assertTrue(hz.getMin() >= span.lowHz() && hz.getMax() <= span.highHz(), hz.toString());
  }

  @Test
  void writesFilesWhole(@TempDir Path folder) throws Exception {
    for (PlotFile kind : PlotFile.values()) {
      Path file = folder.resolve("plot" + kind.ending());
      onScreen(() -> kind.write(file, levels.inSight(), 600, 300));
      assertTrue(Files.size(file) > 1000, file.toString());
    }
    assertEquals(1200, ImageIO.read(folder.resolve("plot.png").toFile()).getWidth());
    assertEquals("level-at-the-jack", PlotMenu.name("Level at the jack!"));
  }
}
