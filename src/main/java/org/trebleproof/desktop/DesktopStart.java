package org.trebleproof.desktop;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.UnixDomainSocketAddress;
import java.nio.channels.SocketChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.logging.Level;
import java.util.logging.Logger;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import javafx.application.Application;
import org.trebleproof.desktop.text.Texts;

/** Opens the window, where there is a display to open it on. */
public final class DesktopStart {

  /** Kept here, since the logging system forgets loggers that nobody holds. */
  private static final Logger QUIET = Logger.getLogger("javafx");

  private DesktopStart() {}

  /** Opens the window; files named as arguments are opened in it. */
  public static void main(String[] arguments) {
    open(arguments).ifPresent(why -> System.err.println("trebleproof: " + why));
  }

  /**
   * Opens the window and returns when it is closed.
   *
   * @param arguments files to open, as if they had been dropped
   * @return a sentence why there is no window; empty when there was one
   */
  public static Optional<String> open(String... arguments) {
    if (displayMissing(System.getProperty("os.name", ""), System.getenv())) {
      return Optional.of(Texts.of("start.no.display"));
    }
    // JavaFX warns of being on the class path, which is how it is meant here.
    QUIET.setLevel(Level.OFF);
    try {
      Application.launch(BenchApplication.class, arguments);
      return Optional.empty();
    } catch (RuntimeException | UnsatisfiedLinkError | NoClassDefFoundError e) {
      return Optional.of(Texts.of("start.no.window", reason(e)));
    }
  }

  /**
   * Whether nothing can be shown: on X systems a variable names the display, and a socket of its
   * number answers. Asked beforehand, since the toolkit ends the process where none does.
   */
  static boolean displayMissing(String system, Map<String, String> environment) {
    String name = system.toLowerCase(Locale.ROOT);
    if ("Monocle".equals(System.getProperty("glass.platform"))
        || name.contains("win")
        || name.contains("mac")) {
      return false;
    }
    String display = environment.getOrDefault("DISPLAY", "");
    Matcher local = Pattern.compile("(?:unix)?:(\\d+)(?:\\.\\d+)?").matcher(display);
    return display.isBlank() || local.matches() && !answers(local.group(1));
  }

  /** Whether an X server listens at a socket of this number, in the file system or beside it. */
  private static boolean answers(String number) {
    Path socket = Path.of("/tmp/.X11-unix/X" + number);
    try (SocketChannel channel = SocketChannel.open(UnixDomainSocketAddress.of(socket))) {
      return channel.isConnected();
    } catch (IOException | UnsupportedOperationException e) {
      return abstractSocket("@" + socket);
    }
  }

  private static boolean abstractSocket(String name) {
    try (Stream<String> sockets = Files.lines(Path.of("/proc/net/unix"))) {
      return sockets.anyMatch(line -> line.endsWith(name));
    } catch (IOException | UncheckedIOException e) {
      return false; // another system's kernel: there are no such sockets
    }
  }

  private static String reason(Throwable e) {
    Throwable cause = e;
    while (cause.getCause() != null) {
      cause = cause.getCause();
    }
    String words =
        cause.getMessage() == null ? cause.getClass().getSimpleName() : cause.getMessage();
    return words.strip().replaceAll("\\s+", " ");
  }
}
