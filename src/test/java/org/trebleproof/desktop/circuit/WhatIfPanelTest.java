package org.trebleproof.desktop.circuit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import javafx.geometry.Bounds;
import javafx.geometry.Point2D;
import javafx.scene.Node;
import javafx.scene.control.Label;
import javafx.scene.control.TextField;
import javafx.scene.input.KeyCode;
import javafx.scene.input.MouseButton;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.testfx.api.FxRobot;
import org.testfx.util.WaitForAsyncUtils;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.desktop.plot.Gallery;
import org.trebleproof.desktop.plot.PlotPane;

/** The circuit panel under pointer and keys. */
class WhatIfPanelTest {

  private final FxRobot robot = new FxRobot();
  private WhatIfPanel panel;

  @BeforeEach
  void open() throws Exception {
    SignalChain chain = ExampleGuitars.guitar(ExampleGuitars.USUAL);
    panel =
        Gallery.shown(
            () -> {
              WhatIfPanel built = new WhatIfPanel();
              built.show(chain, chain.layout(Optional.empty()));
              return built;
            },
            1000,
            640);
    robot.moveTo(new Point2D(1200, 780));
  }

  private Node part(String key) {
    return panel.lookup("#circuit-" + key);
  }

  private void press(KeyCode... keys) {
    robot.press(keys);
    for (int i = keys.length - 1; i >= 0; i--) {
      robot.release(keys[i]);
    }
  }

  private void choose(String key) throws Exception {
    WaitForAsyncUtils.waitForAsyncFx(
        5000,
        () -> {
          part(key).requestFocus();
          return null;
        });
  }

  private Map<String, String> changes() {
    return panel.changesProperty().get();
  }

  @Test
  void draggingAWiperDownTurnsThePotAndTheCurveFollows() throws Exception {
    Bounds at = part("tone").localToScreen(part("tone").getBoundsInLocal());
    Point2D from = new Point2D(at.getMinX() + 8, at.getMinY() + 20);
    robot.moveTo(from).press(MouseButton.PRIMARY).moveBy(0, 20).release(MouseButton.PRIMARY);
    double rotation = Double.parseDouble(changes().get("toneRotation"));
    // 20 px on a drawing magnified by less than 1.15; a way of 40 from end to end.
    assertEquals(0.53, rotation, 0.06);
    WaitForAsyncUtils.waitFor(
        5,
        TimeUnit.SECONDS,
        () -> {
          PlotPane plot = (PlotPane) panel.lookup(".plot-pane");
          return plot != null
              && plot.plotProperty().get().series().stream().anyMatch(s -> s.name().equals("then"));
        });
  }

  @Test
  void keysTurnStepTypeAndPutBack() throws Exception {
    choose("volume");
    press(KeyCode.DOWN);
    press(KeyCode.PAGE_DOWN);
    assertEquals("0.89", changes().get("volumeRotation"));
    press(KeyCode.END);
    assertEquals(Map.of(), changes());
    press(KeyCode.ENTER);
    TextField field = (TextField) panel.lookup(".text-field");
    assertEquals("250k", field.getText());
    robot.write("0,5M 10%");
    press(KeyCode.ENTER);
    assertEquals("0,5M 10%", changes().get("volume"));
    assertTrue(part("volume").getAccessibleText().startsWith("volume pot: 500k ±10 %."));
    assertTrue(part("volume").isFocused());
    Label words = (Label) panel.lookup("#what-if-words");
    assertTrue(words.getText().startsWith("Volume pot: 500k ±10 %."), words.getText());
    press(KeyCode.DELETE);
    assertEquals(Map.of(), changes());
    choose("toneCapacitor");
    press(KeyCode.UP);
    assertEquals(Map.of("toneCapacitor", "27n"), changes());
  }

  @Test
  void whatIsNoValueIsSaidAndChangesNothing() throws Exception {
    choose("cable");
    press(KeyCode.ENTER);
    robot.write("22k");
    press(KeyCode.ENTER);
    Label words = (Label) panel.lookup("#what-if-words");
    assertTrue(words.getText().contains("22k"), words.getText());
    assertTrue(panel.lookup(".text-field").getStyleClass().contains("wrong"));
    press(KeyCode.ESCAPE);
    assertEquals(Map.of(), changes());
  }

  @Test
  void partsThatStayAreNotDrawnAnew() throws Exception {
    Node cable = part("cable");
    Node symbol = ((javafx.scene.Group) cable).getChildren().get(0);
    WaitForAsyncUtils.waitForAsyncFx(
        5000,
        () -> {
          panel.setChanges(Map.of("toneRotation", "0.5"));
          return null;
        });
    assertSame(cable, part("cable"));
    assertSame(symbol, ((javafx.scene.Group) part("cable")).getChildren().get(0));
  }

  @Test
  void thePointerLightsAPartAndTheFocusHasItBack() throws Exception {
    choose("volume");
    Label words = (Label) panel.lookup("#what-if-words");
    Bounds at = part("cable").localToScreen(part("cable").getBoundsInLocal());
    robot.moveTo(new Point2D(at.getCenterX(), at.getCenterY()));
    assertTrue(words.getText().startsWith("Lead: 500p ±5 %."), words.getText());
    robot.moveTo(new Point2D(1200, 780));
    assertTrue(words.getText().startsWith("Volume pot: "), words.getText());
  }

  @Test
  void partWithTheFocusSaysWhatItTakes() throws Exception {
    choose("volume");
    Label words = (Label) panel.lookup("#what-if-words");
    WaitForAsyncUtils.waitFor(5, TimeUnit.SECONDS, () -> words.getText().contains("Takes "));
    assertTrue(words.getText().matches("Volume pot: 250k ±10 %\\. .*Takes [0-9.]+ ±[0-9.]+ dB .*"));
  }
}
