package org.trebleproof.desktop;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.control.TableRow;
import javafx.scene.control.TableView;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyCode;
import javafx.scene.shape.Polyline;
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
import org.trebleproof.shelf.item.ShelvedCoil;

/** The shelf's place, with ten thousand coils on it. */
@ExtendWith(ApplicationExtension.class)
class ShelfInWindowTest {

  private static final int COILS = 10_000;

  @TempDir static Path state;

  private WindowOnTrial trial;
  private Path home;

  @Start
  void open(Stage stage) {
    home = state.resolve("run" + System.nanoTime());
    trial = new WindowOnTrial(stage, home);
  }

  @AfterEach
  void close() {
    trial.close();
  }

  private static TableView<ShelvedCoil> table(FxRobot robot) {
    return robot.lookup("#shelf-table").query();
  }

  private static long drawn(FxRobot robot) {
    return robot.lookup(".small-curve").queryAllAs(Polyline.class).stream()
        .filter(c -> !c.getPoints().isEmpty())
        .count();
  }

  private static String count(FxRobot robot) {
    return robot.lookup("#shelf-count").queryAs(Label.class).getText();
  }

  @Test
  void coilsAreFoundOverlaidAndCompared(FxRobot robot) throws Exception {
    assertTrue(robot.lookup("#shelf-table").tryQuery().isEmpty(), "nothing is read at the start");
    robot.push(KeyCode.CONTROL, KeyCode.DIGIT8);
    WaitForAsyncUtils.waitForFxEvents();
    assertTrue(Files.notExists(home.resolve("shelf.db")), "looking makes no shelf");
    trial.picture("shelf-empty");
    ShelfOnTrial.fill(home.resolve("shelf.db"), COILS);
    robot.push(KeyCode.CONTROL, KeyCode.DIGIT2);
    robot.push(KeyCode.CONTROL, KeyCode.DIGIT8);
    trial.until("they are there", () -> robot.lookup("#shelf-table").tryQuery().isPresent());
    assertEquals("10,000 of 10,000", count(robot));
    trial.until("the curves in sight are drawn", () -> drawn(robot) > 5);
    assertEquals("grey 1", table(robot).getItems().get(0).name());
    assertEquals("grey 10", table(robot).getItems().get(9).name(), "names count as a person does");

    scroll(robot);

    TextField filter = robot.lookup("#shelf-filter").queryAs(TextField.class);
    robot.interact(() -> filter.setText("bridge resistance=5.75k.."));
    trial.until("few are left", () -> table(robot).getItems().size() < 3000);
    assertTrue(table(robot).getItems().stream().allMatch(c -> c.recipe().equals("hot bridge")));
    robot.interact(() -> filter.setText("weight=1..2"));
    trial.until(
        "it is said what is wrong",
        () -> robot.lookup(".shelf-place .mistake").tryQuery().isPresent());
    robot.interact(() -> filter.setText("grey 1"));
    // grey 1, 10 to 19, 100 to 199, 1000 to 1999 and 10000
    trial.until("it is found", () -> count(robot).equals("1,112 of 10,000"));
    assertTrue(robot.lookup(".shelf-place .mistake").tryQuery().isEmpty());

    robot.interact(() -> table(robot).getSelectionModel().selectRange(0, 2));
    trial.until("two are compared", () -> robot.lookup("#shelf-difference").tryQuery().isPresent());
    String said = robot.lookup(".shelf-place .sentence").queryAs(Node.class).getAccessibleText();
    assertTrue(said.contains("just noticeable steps"), said);
    trial.picture("shelf");
    robot.interact(() -> table(robot).getSelectionModel().selectRange(0, 5));
    trial.until(
        "five lie over each other", () -> robot.lookup("#shelf-difference").tryQuery().isEmpty());
    trial.picture("shelf-overlay");

    Path page = home.resolve("batch.html");
    trial.answerWith(page);
    robot.clickOn("#shelf-sheet");
    trial.until("the sheet is shown", () -> trial.shown().contains(page));
    assertTrue(Files.readString(page).contains("5 coils"), "those that were chosen");
    for (Look look :
        java.util.List.of(
            new Look(Scheme.DARK, false, 100),
            new Look(Scheme.LIGHT, true, 100),
            new Look(Scheme.LIGHT, false, 200))) {
      robot.interact(() -> trial.window().setLook(look));
      WaitForAsyncUtils.waitForFxEvents();
      trial.picture(
          ("shelf-" + look.scheme() + "-" + look.scale() + (look.highContrast() ? "-contrast" : ""))
              .toLowerCase(java.util.Locale.ROOT));
      robot.interact(
          () -> {
            SceneWalk walk = new SceneWalk(table(robot).getScene().getRoot());
            assertEquals(Set.of(), walk.cut(), look.toString());
            assertEquals(Set.of(), walk.mute(), look.toString());
          });
    }
  }

  /** Recordings are put there as the open job says that they were made. */
  @Test
  void recordingsBecomeCoils(FxRobot robot) {
    Path sample = Path.of("sample-captures", "unlabelled-coil").toAbsolutePath();
    robot.push(KeyCode.CONTROL, KeyCode.DIGIT8);
    trial.answerWith(sample.resolve("coil.flac"));
    robot.clickOn("#shelf-add");
    assertTrue(
        robot.lookup(".shelf-place .mistake").tryQuery().isPresent(),
        "nobody has said yet how it was recorded");
    robot.interact(() -> trial.window().take(java.util.List.of(sample)));
    robot.clickOn("#shelf-add");
    trial.until("it is there", () -> robot.lookup("#shelf-table").tryQuery().isPresent());
    ShelvedCoil coil = table(robot).getItems().get(0);
    assertEquals("coil", coil.name());
    assertTrue(
        coil.value(org.trebleproof.shelf.item.CoilValue.INDUCTANCE).isPresent(), coil.reason());
    Label told = robot.lookup("#shelf-evening .label").query();
    assertTrue(told.getText().startsWith("✓ 1 of 1: coil, good"), told.getText());
    trial.picture("shelf-added");
  }

  /** Only rows in sight are ever made, and only their curves are read. */
  private void scroll(FxRobot robot) {
    for (int to = 0; to < COILS; to += 97) {
      int row = to;
      robot.interact(() -> table(robot).scrollTo(row));
    }
    robot.interact(() -> table(robot).scrollTo(COILS / 2));
    trial.until("the curves in sight are drawn", () -> drawn(robot) > 5);
    int rows = robot.lookup("#shelf-table .table-row-cell").queryAllAs(TableRow.class).size();
    assertTrue(rows < 100, rows + " rows for " + COILS + " coils");
    robot.interact(() -> table(robot).scrollTo(0));
  }
}
