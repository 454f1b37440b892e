package org.trebleproof.desktop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Path;
import java.util.List;
import javafx.scene.Node;
import javafx.scene.control.ButtonBase;
import javafx.scene.control.Label;
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
import org.trebleproof.desktop.draft.JobDraft;

/** A new job, from the recordings to its verdict, and what stands in the way of one. */
@ExtendWith(ApplicationExtension.class)
class NewJobTest {

  private static final Path SAMPLES = Path.of("sample-captures");

  /** A new job of two recordings asks for no more than this [actions]. */
  private static final int MOST_ACTIONS = 8;

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

  private JobDraft job() {
    return trial.bench().draftProperty().get().orElseThrow();
  }

  private void click(FxRobot robot, String button) {
    actions++;
    robot.interact(() -> robot.lookup(button).queryAs(ButtonBase.class).fire());
  }

  @Test
  void fromTwoRecordingsToAVerdict(FxRobot robot) {
    actions++;
    robot.interact(
        () ->
            trial
                .window()
                .take(
                    List.of(
                        SAMPLES.resolve("strikes-pot-swap/before.flac"),
                        SAMPLES.resolve("strikes-pot-swap/after.flac"))));
    assertEquals(
        List.of("", ""),
        job().captures().stream().map(JobDraft.CaptureLine::setup).toList(),
        "nobody has said which is before");
    click(robot, "#begin-strike");
    click(robot, "#begin-pair");
    click(robot, "#begin-higher");
    trial.picture("begin");
    click(robot, "#begin-volume");
    assertEquals("250k", robot.lookup("#begin-value").queryAs(TextField.class).getText());
    ButtonBase show = robot.lookup("#begin-show").queryAs(ButtonBase.class);
    trial.until("the verdict is there", () -> !show.isDisabled());
    trial.picture("begin-answered");
    click(robot, "#begin-show");
    String verdict = robot.lookup(".verdict-place .lead").queryAs(Node.class).getAccessibleText();
    assertTrue(verdict.toLowerCase(java.util.Locale.ROOT).contains("volume pot"), verdict);
    assertTrue(actions <= MOST_ACTIONS, actions + " actions");
    robot.interact(
        () ->
            assertEquals(
                java.util.Set.of(), new SceneWalk(trial.places().getScene().getRoot()).cut()));
    trial.picture("begin-verdict");
  }

  @Test
  void theButtonLeadsToTheFault(FxRobot robot) {
    robot.interact(() -> trial.bench().beginNew(state.resolve("faulty")));
    robot.interact(
        () -> {
          trial.bench().edit("fixture", d -> d.withFixtureKind("strike"));
          trial
              .bench()
              .edit(
                  "capture", d -> d.withRecording(SAMPLES.resolve("strikes-pot-swap/before.flac")));
          trial.bench().edit("pot", d -> d.withNewPart("tone pot", "pot", "250k"));
          trial.bench().edit("tone", d -> d.withPlaced("before", "tone", "tone pot"));
        });
    String next = robot.lookup("#next-step").queryAs(Label.class).getText();
    assertFalse(next.contains("job.json"), next);
    assertFalse(next.contains("setups."), next);
    assertTrue(next.contains("before"), next);
    robot.interact(() -> robot.lookup("#next-go").queryAs(ButtonBase.class).fire());
    WaitForAsyncUtils.waitForFxEvents();
    Node owner = robot.lookup("#next-go").query().getScene().getFocusOwner();
    assertTrue(String.valueOf(owner.getId()).startsWith("setup-before-"), owner + " for " + next);
    assertTrue(owner.getStyleClass().contains("wrong"), "it is marked");
    trial.picture("fault");
  }

  @Test
  void whatWasTypedAndNotConfirmedIsKept(FxRobot robot) {
    robot.interact(() -> trial.bench().beginNew(state.resolve("typed")));
    TextField title = robot.lookup("#job-title").queryAs(TextField.class);
    robot.interact(title::requestFocus);
    robot.interact(() -> title.setText("Bridge pickup, half"));
    trial.until("it is taken after a rest", () -> job().title().equals("Bridge pickup, half"));
    trial.until("it is kept", () -> trial.bench().keptProperty().get().isPresent());
  }

  /**
   * Not even a text that makes no sense is lost with the process, nor one before the first edit.
   */
  @Test
  void whatWasTypedOutlivesTheProcess(FxRobot robot) {
    robot.interact(() -> trial.window().take(List.of(SAMPLES.resolve("pot-swap"))));
    type(robot, "#part-lead", "46 nonsense");
    trial.until("it is kept", () -> trial.bench().keptProperty().get().isPresent());
    assertEquals("460p 10%", trial.part("lead"), "it is no edit");
    trial = trial.killedAndStartedAnew(robot);
    robot.clickOn("#restore-take");
    TextField lead = robot.lookup("#part-lead").queryAs(TextField.class);
    trial.until("it is there again", () -> lead.getText().equals("46 nonsense"));
    assertTrue(lead.getStyleClass().contains("wrong"), "it is still wrong");
    robot.interact(() -> trial.bench().edit("title", d -> d.withTitle("another title")));
    assertEquals("46 nonsense", lead.getText(), "another edit leaves it alone");
    robot.interact(
        () -> trial.bench().edit("part", d -> d.withNewPart("another", "resistor", "150k")));
    WaitForAsyncUtils.waitForFxEvents();
    assertEquals(
        "46 nonsense",
        robot.lookup("#part-lead").queryAs(TextField.class).getText(),
        "so does one that draws the parts anew");
    robot.interact(() -> trial.bench().beginNew(state.resolve("other")));
    assertEquals(java.util.Map.of(), trial.bench().typed(), "another job has none of it");
  }

  private static void type(FxRobot robot, String field, String text) {
    TextField typed = robot.lookup(field).queryAs(TextField.class);
    robot.interact(typed::requestFocus);
    robot.interact(typed::selectAll);
    robot.write(text);
    WaitForAsyncUtils.waitForFxEvents();
  }

  /** Where nothing was left behind, the next start goes on with the job that was open last. */
  @Test
  void theLastJobIsOpenedAgain(FxRobot robot) {
    robot.interact(() -> trial.window().take(List.of(SAMPLES.resolve("pot-swap"))));
    String title = job().title();
    trial.until("it is remembered", () -> !trial.bench().recentJobs().isEmpty());
    trial = trial.killedAndStartedAnew(robot);
    trial.until("it is there", () -> trial.bench().draftProperty().get().isPresent());
    assertEquals(title, job().title());
    assertFalse(trial.bench().unsaved());
  }

  @Test
  void typeGrowsByEveryPlus(FxRobot robot) {
    for (KeyCode plus : List.of(KeyCode.EQUALS, KeyCode.ADD, KeyCode.PLUS)) {
      double before = type(robot);
      robot.push(KeyCode.CONTROL, plus);
      WaitForAsyncUtils.waitForFxEvents();
      assertTrue(type(robot) > before, plus.toString());
    }
    robot.push(KeyCode.CONTROL, KeyCode.DIGIT0);
  }

  private static double type(FxRobot robot) {
    return robot.lookup("#kept").queryAs(Label.class).getFont().getSize();
  }
}
