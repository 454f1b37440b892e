package org.trebleproof.desktop;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import javafx.application.Application;
import javafx.application.Platform;
import javafx.stage.Stage;
import javafx.stage.Window;

/**
 * Opens the window without a display, lets it draw and work a job out, and closes it: the run whose
 * classes are archived for a fast start.
 */
final class WindowTraining {

  private static final long MOST_SECONDS = 40;

  /** What only a display calls for; of another system they are missing, which does no harm. */
  private static final List<String> OF_A_DISPLAY =
      List.of(
          "com.sun.glass.ui.InvokeLaterDispatcher",
          "com.sun.glass.ui.InvokeLaterDispatcher$Future",
          "com.sun.glass.ui.InvokeLaterDispatcher$InvokeLaterSubmitter",
          "com.sun.glass.ui.Size",
          "com.sun.glass.ui.SystemClipboard",
          "com.sun.glass.ui.delegate.MenuBarDelegate",
          "com.sun.glass.ui.delegate.MenuDelegate",
          "com.sun.glass.ui.delegate.MenuItemDelegate",
          "com.sun.glass.ui.gtk.GtkApplication",
          "com.sun.glass.ui.gtk.GtkClipboardDelegate",
          "com.sun.glass.ui.gtk.GtkCursor",
          "com.sun.glass.ui.gtk.GtkDnDClipboard",
          "com.sun.glass.ui.gtk.GtkPixels",
          "com.sun.glass.ui.gtk.GtkPlatformFactory",
          "com.sun.glass.ui.gtk.GtkSystemClipboard",
          "com.sun.glass.ui.gtk.GtkTimer",
          "com.sun.glass.ui.gtk.GtkView",
          "com.sun.glass.ui.gtk.GtkWindow",
          "com.sun.prism.es2.ES2Pipeline",
          "com.sun.prism.es2.ES2ResourceFactory",
          "com.sun.prism.es2.GLFactory",
          "com.sun.prism.es2.GLFactory$FactoryLoader",
          "com.sun.prism.es2.GLGPUInfo",
          "com.sun.prism.es2.GLPixelFormat",
          "com.sun.prism.es2.GLPixelFormat$Attributes",
          "com.sun.prism.es2.X11GLContext",
          "com.sun.prism.es2.X11GLDrawable",
          "com.sun.prism.es2.X11GLFactory",
          "com.sun.prism.es2.X11GLPixelFormat",
          "com.sun.prism.impl.ps.BaseShaderFactory");

  private WindowTraining() {}

  public static void main(String[] arguments) throws Exception {
    knowDisplays();
    Thread closer =
        new Thread(
            () -> {
              try {
                for (int i = 0; i < 10 * MOST_SECONDS && !done(Path.of(arguments[1])); i++) {
                  Thread.sleep(100);
                }
              } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
              }
              Platform.runLater(
                  () -> List.copyOf(Window.getWindows()).forEach(w -> ((Stage) w).close()));
            });
    closer.setDaemon(true);
    closer.start();
    Application.launch(BenchApplication.class, arguments[0]);
  }

  /** Loads what a display calls for, without using it. */
  private static void knowDisplays() {
    String platform = System.clearProperty("glass.platform");
    DesktopStart.displayMissing("Linux", Map.of("DISPLAY", ":64321"));
    System.setProperty("glass.platform", platform);
    for (String name : OF_A_DISPLAY) {
      try {
        Class.forName(name, false, WindowTraining.class.getClassLoader());
      } catch (ClassNotFoundException | LinkageError e) {
        continue; // of another system
      }
    }
  }

  /** The job opened is listed among the recent ones soon after the window is drawn. */
  private static boolean done(Path state) throws InterruptedException {
    boolean opened = Files.exists(state.resolve("recent.json"));
    if (opened) {
      Thread.sleep(4000);
    }
    return opened;
  }
}
