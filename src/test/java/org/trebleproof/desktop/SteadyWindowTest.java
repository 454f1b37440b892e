package org.trebleproof.desktop;

import static org.junit.jupiter.api.Assertions.assertAll;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import javafx.event.Event;
import javafx.geometry.Point2D;
import javafx.scene.Node;
import javafx.scene.control.TabPane;
import javafx.scene.control.TextField;
import javafx.scene.control.TitledPane;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
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

/** Nothing is cut, nothing lies on anything else, nothing moves that nobody moved. */
@ExtendWith(ApplicationExtension.class)
class SteadyWindowTest {

  private static final Path SAMPLES = Path.of("sample-captures");

  /** What one pixel of rounding may do to a place [px]. */
  private static final double STILL = 1;

  private record Screen(double width, double height, int scale) {}

  private static final List<Screen> SCREENS =
      List.of(
          new Screen(1024, 700, 100),
          new Screen(1280, 800, 100),
          new Screen(1600, 1000, 100),
          new Screen(1024, 700, 200),
          new Screen(1280, 800, 200));

  @TempDir static Path state;

  private Stage stage;
  private WindowOnTrial trial;

  @Start
  void open(Stage shown) {
    stage = shown;
    trial = new WindowOnTrial(shown, state.resolve("run" + System.nanoTime()));
  }

  @AfterEach
  void close() {
    trial.close();
  }

  private void settled(FxRobot robot) {
    trial.until(
        "the verdict is there",
        () ->
            !trial.bench().workingProperty().get()
                && trial.bench().verdictProperty().get().isPresent());
  }

  private void unfold() {
    for (Node node : stage.getScene().getRoot().lookupAll(".titled-pane")) {
      ((TitledPane) node).setExpanded(true);
    }
  }

  private void layOut() {
    stage.getScene().getRoot().applyCss();
    stage.getScene().getRoot().layout();
    // what follows its own width needs a second pass, as in the next frame
    stage.getScene().getRoot().applyCss();
    stage.getScene().getRoot().layout();
  }

  /** Every size in one theme, and every theme in one size: a theme changes colours alone. */
  private void hold(String job, FxRobot robot, Look... further) {
    Map<String, Set<String>> faults = new TreeMap<>();
    for (Screen screen : SCREENS) {
      walkPlaces(job, robot, screen, new Look(Scheme.LIGHT, false, screen.scale()), faults);
    }
    for (Look look : further) {
      walkPlaces(job, robot, SCREENS.get(0), look, faults);
    }
    StringBuilder all = new StringBuilder();
    faults.forEach((fault, where) -> all.append('\n').append(fault).append("  at ").append(where));
    assertEquals("", all.toString());
  }

  private void walkPlaces(
      String job, FxRobot robot, Screen screen, Look look, Map<String, Set<String>> faults) {
    robot.interact(
        () -> {
          trial.window().setLook(look);
        });
    WaitForAsyncUtils.waitForFxEvents();
    TabPane places = trial.places();
    for (int i = 0; i < places.getTabs().size(); i++) {
      int place = i;
      robot.interact(
          () -> {
            places.getSelectionModel().select(place);
            unfold();
            // The display without a display ends at 1280 x 800: beyond, the window is only laid
            // out.
            stage.getScene().getRoot().resize(screen.width(), screen.height());
            layOut();
            String where =
                places.getTabs().get(place).getText()
                    + " "
                    + (int) screen.width()
                    + "/"
                    + screen.scale();
            SceneWalk walk = new SceneWalk(stage.getScene().getRoot());
            for (Set<String> some : List.of(walk.cut(), walk.overlapping(), walk.mute())) {
              some.forEach(f -> faults.computeIfAbsent(f, k -> new TreeSet<>()).add(where));
            }
            if (screen.width() == 1024) {
              trial.picture(
                  String.format(
                          "walk-%s-%d-%d-%s%s",
                          job,
                          place,
                          screen.scale(),
                          look.scheme(),
                          look.highContrast() ? "-contrast" : "")
                      .toLowerCase(java.util.Locale.ROOT),
                  stage.getScene().getRoot());
            }
          });
    }
  }

  /** One window with one verdict, for all that is asked of it. */
  @Test
  void aJobStandsStillWholeAndInReach(FxRobot robot) {
    robot.interact(() -> trial.window().take(List.of(SAMPLES.resolve("pot-swap"))));
    settled(robot);
    assertAll(
        () -> nothingMovesDuringAnEdit(robot),
        () -> tabReachesEverything(robot),
        () ->
            hold(
                "job",
                robot,
                new Look(Scheme.DARK, false, 100),
                new Look(Scheme.LIGHT, true, 100),
                new Look(Scheme.DARK, true, 100)));
  }

  @Test
  void nothingIsCutOrCoveredOnAnEmptyBench(FxRobot robot) {
    hold("empty", robot);
  }

  @Test
  void nothingIsCutOrCoveredWhereRecordingsAreRefused(FxRobot robot) throws IOException {
    robot.interact(
        () -> {
          try {
            trial.window().take(List.of(SpoiledSample.clippedIn(state.resolve("spoiled"))));
          } catch (IOException e) {
            throw new java.io.UncheckedIOException(e);
          }
        });
    settled(robot);
    hold("refused", robot);
  }

  /** A value is typed and confirmed: until its verdict stands, and then, all stays where it was. */
  private void nothingMovesDuringAnEdit(FxRobot robot) {
    Map<Node, Point2D> before = new LinkedHashMap<>();
    robot.interact(() -> before.putAll(new SceneWalk(stage.getScene().getRoot()).places()));
    for (String value : List.of("nonsense", "600p", "460p 10%")) {
      TextField lead = robot.lookup("#part-lead").queryAs(TextField.class);
      robot.interact(
          () -> {
            lead.setText(value);
            lead.fireEvent(new javafx.event.ActionEvent());
            layOut();
            same(before, value + ", typed");
          });
      if (!value.equals("nonsense")) {
        settled(robot);
      }
      robot.interact(
          () -> {
            layOut();
            same(before, value + ", worked out");
          });
    }
  }

  private void same(Map<Node, Point2D> before, String when) {
    Set<String> moved = new TreeSet<>();
    new SceneWalk(stage.getScene().getRoot())
        .places()
        .forEach(
            (node, at) -> {
              Point2D was = before.get(node);
              if (was != null && was.distance(at) > STILL) {
                moved.add(SceneWalk.name(node) + " by " + at.subtract(was));
              }
            });
    assertEquals(Set.of(), moved, when);
  }

  /** Tab alone comes to everything that can be acted on. */
  private void tabReachesEverything(FxRobot robot) {
    robot.interact(() -> trial.window().setLook(new Look(Scheme.LIGHT, false, 100)));
    Map<String, Set<String>> missed = new TreeMap<>();
    for (int i = 0; i < trial.places().getTabs().size(); i++) {
      int place = i;
      robot.interact(() -> trial.places().getSelectionModel().select(place));
      WaitForAsyncUtils.waitForFxEvents();
      robot.interact(
          () -> {
            List<Node> wanted = new SceneWalk(stage.getScene().getRoot()).reachable();
            Set<Node> reached = tabbedTo(3 * wanted.size() + 20, wanted);
            for (Node node : wanted) {
              if (!reached.contains(node) && node.isVisible() && node.getParent().isVisible()) {
                missed
                    .computeIfAbsent(
                        trial.places().getTabs().get(place).getText(), k -> new TreeSet<>())
                    .add(SceneWalk.name(node));
              }
            }
          });
    }
    assertEquals(Map.of(), missed);
  }

  /** What has the focus in turn; each Tab goes the way of a key from the scene on. */
  private Set<Node> tabbedTo(int most, List<Node> wanted) {
    Set<Node> reached = new LinkedHashSet<>();
    for (int step = 0; step < most && !reached.containsAll(wanted); step++) {
      Node owner = stage.getScene().getFocusOwner();
      if (owner != null) {
        reached.add(owner);
      }
      Event.fireEvent(
          owner == null ? stage.getScene() : owner,
          new KeyEvent(KeyEvent.KEY_PRESSED, "\t", "", KeyCode.TAB, false, false, false, false));
    }
    return reached;
  }
}
