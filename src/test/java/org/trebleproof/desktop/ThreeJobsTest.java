package org.trebleproof.desktop;

import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javafx.scene.Node;
import javafx.scene.control.ButtonBase;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyCode;
import javafx.stage.Stage;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;

/**
 * Three people's jobs from an empty window to what they came for. What is dropped, clicked, pressed
 * together or typed into one field is an action.
 */
@ExtendWith(ApplicationExtension.class)
class ThreeJobsTest {

  private static final Path SAMPLES = Path.of("sample-captures");

  @TempDir static Path state;

  private WindowOnTrial trial;
  private int actions;

  @Start
  void open(Stage stage) {
    trial = new WindowOnTrial(stage, state.resolve("run" + System.nanoTime()));
  }

  @AfterEach
  void close() {
    trial.close();
  }

  private void drop(FxRobot robot, Path... files) {
    actions++;
    robot.interact(() -> trial.window().take(List.of(files)));
  }

  private void click(FxRobot robot, String button) {
    trial.until(
        button + " can be pressed",
        () ->
            robot
                .lookup(button)
                .tryQueryAs(ButtonBase.class)
                .filter(b -> !b.isDisabled())
                .isPresent());
    actions++;
    robot.interact(() -> robot.lookup(button).queryAs(ButtonBase.class).fire());
    WaitForAsyncUtils.waitForFxEvents();
  }

  private void press(FxRobot robot, KeyCode... keys) {
    actions++;
    robot.push(keys);
    WaitForAsyncUtils.waitForFxEvents();
  }

  private void type(FxRobot robot, String field, String text) {
    actions++;
    TextField there = robot.lookup(field).queryAs(TextField.class);
    robot.interact(there::requestFocus);
    robot.interact(there::selectAll);
    robot.write(text);
    robot.push(KeyCode.ENTER);
    WaitForAsyncUtils.waitForFxEvents();
  }

  private static String verdict(FxRobot robot) {
    return robot.lookup(".verdict-place .lead").queryAs(Node.class).getAccessibleText();
  }

  private void atMost(int most, String who) {
    System.out.println(who + ": " + actions + " actions");
    assertTrue(actions <= most, who + ": " + actions + " actions");
  }

  /** Two recordings of a customer's guitar become a page with his name. */
  @Test
  void theTechnicianWritesThePageForACustomer(FxRobot robot) throws Exception {
    drop(
        robot,
        SAMPLES.resolve("strikes-pot-swap/before.flac"),
        SAMPLES.resolve("strikes-pot-swap/after.flac"));
    click(robot, "#begin-strike");
    click(robot, "#begin-pair");
    click(robot, "#begin-higher");
    click(robot, "#begin-volume");
    click(robot, "#begin-show");
    type(robot, "#heading-customer", "The lighthouse choir");
    press(robot, KeyCode.CONTROL, KeyCode.DIGIT7);
    Path page = state.resolve("customer.html");
    trial.answerWith(page);
    click(robot, "#write-page");
    actions++; // the dialog that asks where
    trial.until("the page is shown", () -> trial.shown().contains(page));
    String html = Files.readString(page);
    assertTrue(html.contains("The lighthouse choir"), "his name is on it");
    assertTrue(html.contains("olume pot"), "and what was done");
    trial.picture("technician");
    atMost(10, "technician");
  }

  /** A coil on the bench: one sweep through a resistor says what it is. */
  @Test
  void theBuilderMeasuresACoil(FxRobot robot) {
    drop(robot, SAMPLES.resolve("unlabelled-coil/coil.flac"));
    click(robot, "#begin-series");
    type(robot, "#begin-resistor", "100k 0.1%");
    click(robot, "#begin-bare");
    trial.picture("builder-begin");
    click(robot, "#begin-show");
    assertTrue(verdict(robot).startsWith("The coil"), verdict(robot));
    trial.picture("builder");
    atMost(5, "builder");
  }

  /** Would another pot be heard? Turned, typed, listened to, before anything is soldered. */
  @Test
  void thePlayerHearsAPotBeforeItIsBought(FxRobot robot) {
    trial.picture("player-first");
    drop(robot, SAMPLES.resolve("pot-swap"));
    trial.until("the verdict is there", () -> trial.bench().verdictProperty().get().isPresent());
    press(robot, KeyCode.CONTROL, KeyCode.DIGIT4);
    actions++; // a click on the pot
    robot.interact(() -> robot.lookup("#circuit-volume").queryAs(Node.class).requestFocus());
    press(robot, KeyCode.ENTER);
    actions++;
    robot.write("1M");
    robot.push(KeyCode.ENTER);
    trial.until(
        "it is said what that does",
        () ->
            String.valueOf(
                    robot.lookup("#what-if-sentence").queryAs(Node.class).getAccessibleText())
                .startsWith("Volume pot"));
    trial.picture("player");
    press(robot, KeyCode.CONTROL, KeyCode.DIGIT6);
    click(robot, "#listen-make");
    trial.until(
        "the sounds are made",
        () -> !robot.lookup("#blind-begin").queryAs(ButtonBase.class).isDisabled());
    trial.picture("player-listen");
    atMost(7, "player");
  }
}
