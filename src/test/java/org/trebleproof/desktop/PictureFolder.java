package org.trebleproof.desktop;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import javafx.embed.swing.SwingFXUtils;
import javafx.scene.image.WritableImage;
import javax.imageio.ImageIO;

/** Pictures of the window as build output, written beside the work of the screen. */
final class PictureFolder implements AutoCloseable {

  private static final Path PICTURES = Path.of("target", "screens");

  /**
   * Pictures of the guide, made anew with {@code -Dguide.pictures=src/site/markdown/pictures}, at
   * this share of their size.
   */
  private static final double IN_GUIDE = 0.75;

  private static final Set<String> GUIDE = Set.of("verdict", "begin", "what-if", "plot", "shelf");

  private final ExecutorService writer = Executors.newSingleThreadExecutor();
  private final List<CompletableFuture<Void>> writing = new ArrayList<>();

  void keep(String name, WritableImage image) {
    writing.add(CompletableFuture.runAsync(() -> write(name, image), writer));
  }

  private static void write(String name, WritableImage image) {
    String run = "true".equals(System.getProperty("testfx.headless")) ? "headless" : "display";
    try {
      Path folder = Files.createDirectories(PICTURES.resolve(run));
      BufferedImage whole = SwingFXUtils.fromFXImage(image, null);
      String guide = System.getProperty("guide.pictures");
      if (guide != null && GUIDE.contains(name)) {
        Path to = Files.createDirectories(Path.of(guide)).resolve(name + ".png");
        ImageIO.write(smaller(whole), "png", to.toFile());
      }
      ImageIO.write(whole, "png", folder.resolve(name + ".png").toFile());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static BufferedImage smaller(BufferedImage whole) {
    int width = (int) (IN_GUIDE * whole.getWidth());
    int height = (int) (IN_GUIDE * whole.getHeight());
    BufferedImage small = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    Graphics2D drawing = small.createGraphics();
    drawing.setRenderingHint(
        RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BICUBIC);
    drawing.drawImage(whole, 0, 0, width, height, null);
    drawing.dispose();
    return small;
  }

  /** All of them are there, or the reason why not is thrown. */
  @Override
  public void close() {
    writing.forEach(CompletableFuture::join);
    writer.shutdown();
  }
}
