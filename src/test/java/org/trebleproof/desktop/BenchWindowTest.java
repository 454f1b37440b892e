package org.trebleproof.desktop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import javafx.geometry.Bounds;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ButtonBase;
import javafx.scene.control.CheckBox;
import javafx.scene.control.ComboBox;
import javafx.scene.control.ComboBoxBase;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.Slider;
import javafx.scene.control.TextField;
import javafx.scene.control.TitledPane;
import javafx.scene.control.ToggleButton;
import javafx.scene.input.Clipboard;
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
import org.trebleproof.desktop.look.Look;
import org.trebleproof.desktop.look.Scheme;
import org.trebleproof.desktop.plot.PlotPane;
import org.trebleproof.quantity.Estimate;
import org.trebleproof.quantity.EstimateText;

/** The real window, driven as a person drives it. */
@ExtendWith(ApplicationExtension.class)
class BenchWindowTest {

  private static final Path SAMPLES = Path.of("sample-captures");

  @TempDir static Path state;

  static final List<KeyCode> ALL =
      List.of(
          KeyCode.DIGIT1,
          KeyCode.DIGIT2,
          KeyCode.DIGIT3,
          KeyCode.DIGIT4,
          KeyCode.DIGIT5,
          KeyCode.DIGIT6,
          KeyCode.DIGIT7,
          KeyCode.DIGIT8);

  private WindowOnTrial trial;

  /** Places that are looked at in every look. */
  List<KeyCode> everywhere() {
    return List.of(KeyCode.DIGIT2, KeyCode.DIGIT4);
  }

  @Start
  void open(Stage stage) {
    trial = new WindowOnTrial(stage, state.resolve("run" + System.nanoTime()));
  }

  @AfterEach
  void close() {
    trial.close();
  }

  private void drop(FxRobot robot, Path file) {
    robot.interact(() -> trial.window().take(List.of(file)));
    trial.until(
        "the verdict is there",
        () ->
            !trial.bench().workingProperty().get()
                && trial.bench().verdictProperty().get().isPresent());
  }

  private static void press(FxRobot robot, KeyCode... keys) {
    robot.push(keys);
    WaitForAsyncUtils.waitForFxEvents();
  }

  /** The main job: drop a sample, read the verdict, try a pot, write the page. */
  @Test
  void fromARecordingToThePageForTheCustomer(FxRobot robot) throws IOException {
    trial.picture("empty");
    drop(robot, SAMPLES.resolve("pot-swap"));
    String verdict = robot.lookup(".verdict-place .lead").queryAs(Node.class).getAccessibleText();
    assertTrue(verdict.startsWith("The new volume pot reads 5"), verdict);
    assertEquals(2, robot.lookup(".verdict-place .plot-pane").queryAll().size());
    trial.picture("verdict");
    robot.interact(() -> trial.picture("plot", robot.lookup("#plot-levels").queryAs(Node.class)));

    press(robot, KeyCode.CONTROL, KeyCode.DIGIT3);
    assertEquals(9, robot.lookup(".evidence-place .plot-pane").queryAll().size());
    trial.picture("evidence");

    press(robot, KeyCode.CONTROL, KeyCode.DIGIT4);
    robot.interact(() -> trial.change("volume", "1M"));
    trial.until(
        "the mod is an edit of the job", () -> trial.bench().undoWordsProperty().get().isPresent());
    Estimate lead =
        trial.bench().verdictProperty().get().orElseThrow().ofPart("lead").orElseThrow();
    String drawn = robot.lookup("#circuit-cable").queryAs(Node.class).getAccessibleText();
    assertTrue(drawn.contains(EstimateText.full(lead)), drawn + ": one source for both places");
    String mod = robot.lookup("#what-if-sentence").queryAs(Node.class).getAccessibleText();
    assertTrue(mod.startsWith("Volume pot"), mod);
    trial.picture("what-if");
    hear(robot);

    Path page = state.resolve("page.html");
    trial.answerWith(page);
    press(robot, KeyCode.CONTROL, KeyCode.DIGIT7);
    robot.clickOn("#write-page");
    trial.until("the page is written", () -> Files.exists(page));
    String html = Files.readString(page);
    assertTrue(html.contains("The new volume pot reads"), "the page leads with the verdict");
    trial.until("the page is shown", () -> trial.shown().contains(page));
    trial.picture("page");
    assertEquals(
        2,
        robot.lookup(".customer-paper .plot-pane").queryAll().size(),
        "what is printed is to be seen before");
    robot.interact(() -> robot.lookup("#open-page").queryAs(Button.class).fire());
    trial.until("it is shown without asking where it goes", () -> trial.shown().size() == 2);
    assertEquals(html, Files.readString(trial.shown().get(1)));
  }

  /** On a machine that makes no sound: it is said, and a blind test counts all the same. */
  private void hear(FxRobot robot) {
    robot.interact(() -> robot.lookup("#hear-turning").queryAs(ToggleButton.class).fire());
    trial.until(
        "it is said that nothing plays",
        () ->
            robot
                .lookup("#hear-turning-words")
                .queryAs(Label.class)
                .getText()
                .startsWith("No device"));
    assertFalse(robot.lookup("#hear-turning").queryAs(ToggleButton.class).isSelected());
    press(robot, KeyCode.CONTROL, KeyCode.DIGIT6);
    robot.interact(() -> robot.lookup("#listen-make").queryAs(Button.class).fire());
    Button begin = robot.lookup("#blind-begin").queryAs(Button.class);
    trial.until("the sounds are made", () -> !begin.isDisabled());
    ComboBox<Integer> trials = robot.lookup("#blind-trials").query();
    robot.interact(() -> trials.setValue(8));
    robot.interact(begin::fire);
    trial.picture("blind");
    for (int i = 1; i <= 8; i++) {
      assertEquals(
          "Trial " + i + " of 8: which of the two is it?",
          robot.lookup("#blind-question").queryAs(Label.class).getText());
      press(robot, KeyCode.B);
    }
    String result = robot.lookup("#blind-result").queryAs(Label.class).getText();
    assertTrue(result.matches("[0-8] of 8 right; guessing does as well or better in .*"), result);
    trial.picture("blind-result");
  }

  @Test
  void aValueIsTypedWithACommaRefusedAndUndone(FxRobot robot) {
    drop(robot, SAMPLES.resolve("pot-swap"));
    TextField lead = robot.lookup("#part-lead").queryAs(TextField.class);
    robot.interact(lead::requestFocus);
    robot.interact(lead::selectAll);
    robot.write("0,5n 5%");
    press(robot, KeyCode.ENTER);
    assertEquals("0,5n 5%", trial.part("lead"));
    robot.interact(lead::selectAll);
    robot.write("nonsense");
    press(robot, KeyCode.ENTER);
    assertEquals("0,5n 5%", trial.part("lead"));
    assertTrue(lead.getStyleClass().contains("wrong"));
    trial.picture("mistake");
    press(robot, KeyCode.ESCAPE);
    assertFalse(lead.getStyleClass().contains("wrong"));
    robot.interact(() -> trial.bench().undo());
    assertEquals("460p 10%", trial.part("lead"));
    assertEquals("460p 10%", lead.getText());
  }

  @Test
  void theVerdictIsSelectedAndCopied(FxRobot robot) {
    drop(robot, SAMPLES.resolve("pot-swap"));
    Node verdict = robot.lookup(".verdict-place .lead").queryAs(Node.class);
    robot.interact(verdict::requestFocus);
    press(robot, KeyCode.CONTROL, KeyCode.C);
    assertEquals(verdict.getAccessibleText(), copied(robot).replace('\u00a0', ' '));
    Bounds at = verdict.localToScreen(verdict.getLayoutBounds());
    // From before the first letter to the right end of the first line.
    robot.drag(at.getMinX() + 1, at.getMinY() + 8).dropTo(at.getMaxX() - 2, at.getMinY() + 8);
    press(robot, KeyCode.CONTROL, KeyCode.C);
    String line = copied(robot);
    assertTrue(
        verdict.getAccessibleText().startsWith(line)
            && line.length() > 10
            && line.length() < verdict.getAccessibleText().length(),
        line);
    trial.picture("selected");
  }

  private static String copied(FxRobot robot) {
    String[] text = new String[1];
    robot.interact(() -> text[0] = Clipboard.getSystemClipboard().getString());
    return text[0];
  }

  @Test
  void aTapASecondPickupAndATurnedPotAreSetInTheWorkOrder(FxRobot robot) {
    drop(robot, SAMPLES.resolve("pot-swap"));
    robot.interact(
        () ->
            robot.lookup(".titled-pane").queryAllAs(TitledPane.class).stream()
                .filter(p -> String.valueOf(p.getText()).startsWith("after:"))
                .findFirst()
                .orElseThrow()
                .setExpanded(true));
    assertTrue(
        robot.lookup("#setup-after-tap").tryQuery().isEmpty(),
        "what few guitars have is not in the way");
    robot.interact(
        () ->
            robot.lookup(".check-box").queryAllAs(CheckBox.class).stream()
                .filter(c -> String.valueOf(c.getAccessibleText()).startsWith("after:"))
                .findFirst()
                .orElseThrow()
                .setSelected(true));
    ComboBox<String> tap = robot.lookup("#setup-after-tap").query();
    assertTrue(
        robot.lookup("#setup-after-phase").tryQuery().isEmpty(), "there is no second pickup yet");
    robot.interact(() -> tap.setValue("on"));
    assertEquals(
        Optional.of("on"),
        trial.bench().draftProperty().get().orElseThrow().placed("after", "tap"));
    robot.interact(() -> trial.bench().edit("part", d -> d.withNewPart("neck", "pickup", "6k")));
    ComboBox<String> second = robot.lookup("#setup-after-secondPickup").query();
    robot.interact(() -> second.setValue("neck"));
    ComboBox<String> phase = robot.lookup("#setup-after-phase").query();
    robot.interact(() -> phase.setValue("out"));
    TextField turned = robot.lookup("#setup-after-volume-rotation").queryAs(TextField.class);
    robot.interact(turned::requestFocus);
    robot.write("62,5");
    press(robot, KeyCode.ENTER);
    assertEquals(
        0.625, trial.bench().draftProperty().get().orElseThrow().rotation("after", "volume"));
    robot.interact(() -> robot.lookup(".work-order").queryAs(ScrollPane.class).setVvalue(0.6));
    trial.picture("setup");
    robot.interact(() -> second.setValue("none"));
    assertEquals(
        Optional.empty(),
        trial.bench().draftProperty().get().orElseThrow().placed("after", "phase"),
        "what needed the second pickup goes with it");
  }

  @Test
  void aNewJobIsBegunAndNamedByKeyboard(FxRobot robot) {
    press(robot, KeyCode.CONTROL, KeyCode.N);
    assertTrue(trial.bench().draftProperty().get().isPresent());
    // Back over bench, instrument and customer to the title.
    for (int field = 0; field < 4; field++) {
      press(robot, KeyCode.SHIFT, KeyCode.TAB);
    }
    press(robot, KeyCode.CONTROL, KeyCode.A);
    robot.write("Bridge pickup");
    press(robot, KeyCode.ENTER);
    assertEquals("Bridge pickup", trial.bench().draftProperty().get().orElseThrow().title());
    press(robot, KeyCode.CONTROL, KeyCode.DIGIT1);
    trial.picture("new-job");
  }

  @Test
  void aRefusedCaptureLooksRefusedAndSaysWhatToDo(FxRobot robot) throws IOException {
    drop(robot, SpoiledSample.clippedIn(state.resolve("spoiled")));
    assertTrue(robot.lookup(".mark-refused").tryQuery().isPresent());
    assertTrue(robot.lookup(".verdict-place .refused").tryQuery().isPresent());
    assertTrue(robot.lookup(".verdict-place .plot-pane").queryAll().isEmpty());
    String next = robot.lookup("#next-step").queryAs(Label.class).getText();
    assertFalse(next.isBlank());
    trial.picture("refused");
    press(robot, KeyCode.CONTROL, KeyCode.DIGIT3);
    trial.picture("refused-evidence");
  }

  /** Recordings of strikes without a job: dropped, told what they are, and worked out. */
  @Test
  void strikesAreDroppedToldAndJudged(FxRobot robot) {
    robot.interact(
        () ->
            trial
                .window()
                .take(
                    List.of(
                        SAMPLES.resolve("strikes-pot-swap/before.flac"),
                        SAMPLES.resolve("strikes-pot-swap/after.flac"))));
    robot.interact(
        () ->
            trial
                .bench()
                .edit(
                    "fixture", d -> d.withFixtureKind("strike").withInput("resistance", "1M 1%")));
    press(robot, KeyCode.CONTROL, KeyCode.DIGIT1);
    trial.picture("strikes-measure");
    robot.interact(() -> trial.bench().edit("setup", d -> d.withNewSetup("before")));
    robot.interact(() -> trial.bench().edit("setup", d -> d.withNewSetup("after")));
    assertEquals(
        List.of("before", "after"),
        trial.bench().draftProperty().get().orElseThrow().captures().stream()
            .map(c -> c.setup())
            .toList());
    drop(robot, SAMPLES.resolve("strikes-pot-swap"));
    press(robot, KeyCode.CONTROL, KeyCode.DIGIT3);
    assertTrue(robot.lookup(".evidence-place .refused").tryQuery().isEmpty());
    assertTrue(robot.lookup(".evidence-place .plot-pane").queryAll().size() > 2, "a plot a note");
    assertTrue(robot.lookup(".mark-unused").tryQuery().isEmpty(), "both recordings were used");
    trial.picture("strikes-evidence");
    ScrollPane place = robot.lookup(".evidence-place").queryAs(ScrollPane.class);
    robot.interact(
        () -> {
          trial.window().setLook(new Look(Scheme.LIGHT, false, 200));
          place.getScene().getWindow().setWidth(1000);
        });
    trial.until(
        "nothing reaches beyond a narrow window",
        () -> place.getContent().getLayoutBounds().getWidth() < 1000);
    trial.picture("strikes-evidence-narrow");
  }

  @Test
  void whatWasLeftIsOfferedWithWhatAndWhen(FxRobot robot) {
    drop(robot, SAMPLES.resolve("pot-swap"));
    robot.interact(() -> trial.bench().edit("title", d -> d.withTitle("half done")));
    trial.until("it is kept", () -> trial.bench().keptProperty().get().isPresent());
    trial = trial.killedAndStartedAnew(robot);
    Label words = robot.lookup("#restore-words").queryAs(Label.class);
    assertTrue(words.getText().contains("half done"), words.getText());
    assertTrue(words.getText().contains("the last: title"), words.getText());
    trial.picture("restore");
    robot.interact(() -> trial.bench().beginNew(state.resolve("second")));
    robot.interact(() -> trial.bench().edit("title", d -> d.withTitle("begun later")));
    trial.until("it is kept", () -> trial.bench().keptProperty().get().isPresent());
    trial = trial.killedAndStartedAnew(robot);
    assertTrue(
        robot.lookup("#restore-words").queryAs(Label.class).getText().contains("begun later"),
        "the latest comes first");
    assertTrue(
        robot.lookup("#restore-words-2").queryAs(Label.class).getText().contains("half done"));
    trial.picture("restore-several");
    robot.clickOn("#restore-take-2");
    WaitForAsyncUtils.waitForFxEvents();
    assertEquals("half done", robot.lookup("#job-title").queryAs(TextField.class).getText());
    assertTrue(
        robot.lookup("#restore-words").queryAs(Label.class).getText().contains("begun later"),
        "the other stays on offer");
    robot.clickOn("#restore-aside");
    WaitForAsyncUtils.waitForFxEvents();
    assertTrue(robot.lookup("#restore-words").tryQuery().isEmpty());
  }

  /** Everything at 200 % and in the dark, and every control with words for those who hear it. */
  @Test
  void everyControlHasWordsAndEveryLookHasItsPicture(FxRobot robot) {
    drop(robot, SAMPLES.resolve("pot-swap"));
    for (Look look :
        List.of(
            new Look(Scheme.LIGHT, false, 100),
            new Look(Scheme.DARK, false, 100),
            new Look(Scheme.LIGHT, false, 200))) {
      robot.interact(() -> trial.window().setLook(look));
      WaitForAsyncUtils.waitForFxEvents();
      for (KeyCode place :
          List.of(
              KeyCode.DIGIT1,
              KeyCode.DIGIT2,
              KeyCode.DIGIT3,
              KeyCode.DIGIT4,
              KeyCode.DIGIT5,
              KeyCode.DIGIT6,
              KeyCode.DIGIT7,
              KeyCode.DIGIT8)) {
        press(robot, KeyCode.CONTROL, place);
        assertEquals(Set.of(), wordless(robot), look + " " + place);
        String name = "place-" + place.getChar() + "-" + look.scheme() + "-" + look.scale();
        trial.picture(
            name.toLowerCase(java.util.Locale.ROOT) + (look.highContrast() ? "-contrast" : ""));
      }
    }
  }

  private static Set<String> wordless(FxRobot robot) {
    Set<String> found = new TreeSet<>();
    for (Node node : robot.lookup("*").queryAll()) {
      boolean speaks =
          node instanceof ButtonBase
              || node instanceof TextField
              || node instanceof ComboBoxBase
              || node instanceof Slider
              || node instanceof PlotPane;
      boolean ours = node.isFocusTraversable() && node.isVisible();
      String words =
          Optional.ofNullable(node.getAccessibleText())
              .or(
                  () ->
                      node instanceof ButtonBase b
                          ? Optional.ofNullable(b.getText())
                          : Optional.empty())
              .orElse("");
      if (speaks && ours && words.isBlank()) {
        found.add(node.toString());
      }
    }
    return found;
  }
}
