package org.trebleproof.desktop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.control.MenuBar;
import javafx.scene.control.MenuItem;
import javafx.scene.control.ScrollPane;
import javafx.scene.input.KeyCode;
import javafx.stage.Stage;
import javafx.stage.Window;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import org.trebleproof.desktop.plot.PlotPane;

/** Plots take the room they are given; the first screen leads to a job, and Help to the guide. */
@ExtendWith(ApplicationExtension.class)
class PlotsInWindowTest {

  @TempDir static Path state;

  private WindowOnTrial trial;
  private Stage stage;
  private String home;

  @Start
  void open(Stage shown) {
    stage = shown;
    home = System.getProperty("user.home");
    System.setProperty("user.home", state.resolve("home").toString());
    trial = new WindowOnTrial(shown, state.resolve("run" + System.nanoTime()));
  }

  @AfterEach
  void close() {
    System.setProperty("user.home", home);
    trial.close();
  }

  private void verdict(FxRobot robot) {
    trial.until(
        "the verdict is there",
        () ->
            !trial.bench().workingProperty().get()
                && trial.bench().verdictProperty().get().isPresent());
  }

  private static PlotPane levels(FxRobot robot) {
    return robot.lookup("#plot-levels").queryAs(PlotPane.class);
  }

  @Test
  void theSampleIsOpenedAndItsPlotsTakeTheRoom(FxRobot robot) {
    robot.interact(
        () -> robot.lookup("#open-sample").queryAs(javafx.scene.control.Button.class).fire());
    verdict(robot);
    double high = levels(robot).getHeight();
    assertTrue(high > 0.3 * stage.getScene().getHeight(), "a plot as high as " + high);

    Node divider = levels(robot).getParent().lookup(".divider");
    robot.interact(divider::requestFocus);
    robot.push(KeyCode.UP);
    WaitForAsyncUtils.waitForFxEvents();
    assertTrue(levels(robot).getHeight() < high, "the divider gives it less room");

    robot.interact(() -> levels(robot).requestFocus());
    robot.push(KeyCode.F);
    WaitForAsyncUtils.waitForFxEvents();
    ScrollPane place = robot.lookup(".verdict-place").queryAs(ScrollPane.class);
    PlotPane alone = (PlotPane) place.getContent().lookup(".plot-pane");
    assertTrue(alone.getHeight() > 0.8 * place.getHeight(), "it fills the place");
    trial.picture("plot-alone");
    robot.push(KeyCode.F);
    WaitForAsyncUtils.waitForFxEvents();
    assertEquals(2, place.getContent().lookupAll(".plot-pane").size(), "both are back");

    robot.interact(() -> levels(robot).requestFocus());
    robot.push(KeyCode.RIGHT);
    robot.push(KeyCode.SHIFT, KeyCode.LEFT);
    WaitForAsyncUtils.waitForFxEvents();
    trial.picture("cursors");
    String read = levels(robot).getAccessibleText();
    robot.interact(() -> trial.window().take(List.of(Path.of("sample-captures/treble-complaint"))));
    verdict(robot);
    assertFalse(read.isBlank());
    assertFalse(
        levels(robot).getAccessibleText().contains("At "), "another job has no cursors of this");
    robot.interact(() -> trial.bench().edit("title", d -> d.withTitle("kept for later")));
    trial.until("it is kept", () -> trial.bench().keptProperty().get().isPresent());
    trial = trial.killedAndStartedAnew(robot);
    robot.clickOn("#restore-aside");
    WaitForAsyncUtils.waitForFxEvents();
    trial.until("it is set aside", () -> trial.bench().setAside().size() == 1);
    robot.interact(() -> trial.bench().takeUp(trial.bench().setAside().get(0)));
    assertEquals("kept for later", trial.bench().draftProperty().get().orElseThrow().title());
    assertTrue(
        trial.bench().recentEntries().stream().anyMatch(e -> !e.title().isBlank()),
        "jobs opened are listed by title");
  }

  @Test
  void theGuideIsReadInside(FxRobot robot) {
    MenuBar bar = robot.lookup(".menu-bar").queryAs(MenuBar.class);
    List<MenuItem> help = bar.getMenus().get(bar.getMenus().size() - 1).getItems();
    robot.interact(() -> help.get(0).fire());
    WaitForAsyncUtils.waitForFxEvents();
    Window guide = Window.getWindows().get(Window.getWindows().size() - 1);
    assertTrue(
        guide.getScene().getRoot().lookupAll(".heading").stream()
            .anyMatch(n -> n instanceof Label l && !l.getText().isBlank()),
        "a page with headings");
    robot.interact(() -> trial.picture("guide", guide.getScene().getRoot()));
    robot.interact(guide::hide);
    robot.interact(() -> help.get(1).fire());
    WaitForAsyncUtils.waitForFxEvents();
    Window about = Window.getWindows().get(Window.getWindows().size() - 1);
    String words =
        about.getScene().getRoot().lookupAll(".label").stream()
            .map(n -> ((Label) n).getText())
            .reduce("", String::concat);
    assertTrue(words.contains("GNU GENERAL PUBLIC LICENSE"), "the licence");
    robot.interact(about::hide);
  }
}
