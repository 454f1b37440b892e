package org.trebleproof.desktop;

import java.util.List;
import javafx.scene.input.KeyCode;
import javafx.stage.Stage;
import org.junit.jupiter.api.Tag;
import org.testfx.framework.junit5.Start;

/** The same on a real X server. */
@Tag("xserver")
final class BenchWindowOnDisplayTest extends BenchWindowTest {

  /** The framework looks only at the class itself for what to start. */
  @Override
  @Start
  void open(Stage stage) {
    super.open(stage);
  }

  @Override
  List<KeyCode> everywhere() {
    return ALL;
  }
}
