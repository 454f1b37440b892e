package org.trebleproof.desktop.plot;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import javafx.application.Platform;
import javafx.embed.swing.SwingFXUtils;
import javafx.geometry.Pos;
import javafx.scene.Parent;
import javafx.scene.Scene;
import javafx.scene.SnapshotParameters;
import javafx.scene.image.WritableImage;
import javafx.scene.layout.Region;
import javafx.scene.layout.StackPane;
import javafx.scene.transform.Scale;
import javafx.stage.Stage;
import javax.imageio.ImageIO;
import org.testfx.api.FxToolkit;
import org.testfx.util.WaitForAsyncUtils;

/**
 * A stage without a display whose content is kept as pictures in {@code target/screens}: as it is
 * and at twice the size of type, light and dark.
 */
public final class Gallery {

  private static final Path SCREENS = Path.of("target", "screens");

  private Gallery() {}

  /** How a picture is taken. */
  public enum Look {
    LIGHT("bench", 12.5),
    DARK("bench dark", 12.5),
    LARGE("bench", 25),
    CONTRAST("bench dark contrast", 12.5);

    private final String styles;
    private final double size;

    Look(String styles, double size) {
      this.styles = styles;
      this.size = size;
    }
  }

  /** Builds the content on the screen's thread and shows it. */
  public static <T extends Parent> T shown(
      java.util.function.Supplier<T> content, double width, double height) throws Exception {
    Stage stage = FxToolkit.registerPrimaryStage();
    T root =
        WaitForAsyncUtils.waitForAsyncFx(
            20000,
            () -> {
              T built = content.get();
              if (built instanceof Region region) {
                region.setMinSize(width, height);
                region.setMaxSize(width, height);
              }
              StackPane around = new StackPane(built);
              around.setAlignment(Pos.TOP_LEFT);
              // One size for all, as the stage without a display cannot be resized.
              Scene scene = new Scene(around, 1280, 800);
              scene
                  .getStylesheets()
                  .add(Gallery.class.getResource("/org/trebleproof/desktop/bench.css").toString());
              stage.setScene(scene);
              stage.show();
              return built;
            });
    dress(root, Look.LIGHT);
    return root;
  }

  /** Dresses the content and waits until it was drawn so. */
  public static void dress(Parent root, Look look) throws Exception {
    WaitForAsyncUtils.waitForAsyncFx(
        20000,
        () -> {
          root.getStyleClass().removeAll("bench", "dark", "contrast");
          root.getStyleClass().addAll(look.styles.split(" "));
          root.setStyle("-fx-font-family: 'DejaVu Sans'; -fx-font-size: " + look.size + "px;");
          return null;
        });
    frames(3);
  }

  /** Waits until so many frames were drawn. */
  public static void frames(int count) throws InterruptedException {
    for (int i = 0; i < count; i++) {
      CountDownLatch drawn = new CountDownLatch(1);
      Platform.runLater(
          () -> {
            Platform.requestNextPulse();
            new javafx.animation.AnimationTimer() {
              @Override
              public void handle(long now) {
                stop();
                drawn.countDown();
              }
            }.start();
          });
      drawn.await(5, TimeUnit.SECONDS);
    }
  }

  /** Keeps what is shown, in every look. */
  public static void keep(Parent root, String name) throws Exception {
    for (Look look : Look.values()) {
      dress(root, look);
      Files.createDirectories(SCREENS);
      String file = name + "-" + look.name().toLowerCase(java.util.Locale.ROOT) + ".png";
      write(root, SCREENS.resolve(file), 1);
      if (look == Look.LIGHT) {
        write(root, SCREENS.resolve(name + "-2x.png"), 2);
      }
    }
    dress(root, Look.LIGHT);
  }

  private static void write(Parent root, Path file, double scale) throws Exception {
    WritableImage image =
        WaitForAsyncUtils.waitForAsyncFx(
            20000,
            () -> {
              SnapshotParameters how = new SnapshotParameters();
              how.setTransform(new Scale(scale, scale));
              return root.snapshot(how, null);
            });
    try {
      ImageIO.write(SwingFXUtils.fromFXImage(image, null), "png", file.toFile());
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }
}
