package org.trebleproof.audio.device;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;

/**
 * A real sound server of one's own, without a sound card: two null sinks, whose monitors give back
 * what is played into them. Java meets it as the device "default" because the tests are started
 * with PULSE_SERVER pointing at its socket (see the surefire settings in the pom).
 */
public final class SoundServer implements AutoCloseable {

  /** Sink that is the default one; its monitor is the default source. */
  public static final String OUT = "out";

  private final Path folder;
  private final Process process;

  private SoundServer(Path folder, Process process) {
    this.folder = folder;
    this.process = process;
  }

  /** Starts it; fails where it is not installed. */
  public static SoundServer start() throws IOException, InterruptedException {
    Path socket = Path.of(System.getenv("PULSE_SERVER").replaceFirst("^unix:", ""));
    Path folder = socket.getParent();
    Files.createDirectories(folder);
    Files.deleteIfExists(socket);
    ProcessBuilder builder =
        new ProcessBuilder(
            "pulseaudio",
            "-n",
            "--daemonize=no",
            "--use-pid-file=no",
            "--exit-idle-time=-1",
            "--disallow-exit",
            // Its shared memory loses blocks when a sink goes while it plays, and ends the server.
            "--disable-shm=yes",
            "--log-target=file:" + folder.resolve("server.log"),
            "--load=module-native-protocol-unix auth-anonymous=1 socket=" + socket);
    ownFolders(builder.environment(), folder);
    builder.environment().remove("PULSE_SERVER");
    builder.redirectErrorStream(true).redirectOutput(folder.resolve("server.out").toFile());
    SoundServer server = new SoundServer(folder, builder.start());
    Runtime.getRuntime().addShutdownHook(new Thread(server.process::destroy));
    for (int i = 0; i < 100 && !server.answers(); i++) {
      Thread.sleep(100);
    }
    server.loadOut();
    return server;
  }

  private void loadOut() throws IOException, InterruptedException {
    control(
        "load-module",
        "module-null-sink",
        "sink_name=" + OUT,
        "rate=48000",
        "format=s24le",
        "channels=2");
    control("set-default-sink", OUT);
    control("set-default-source", OUT + ".monitor");
  }

  /** Number of the loaded module of that name. */
  public String module(String name) throws IOException, InterruptedException {
    return control("list", "short", "modules")
        .lines()
        .map(line -> line.split("\t"))
        .filter(words -> words[1].equals(name))
        .map(words -> words[0])
        .findFirst()
        .orElseThrow();
  }

  private static void ownFolders(Map<String, String> environment, Path folder) {
    for (String key :
        List.of("XDG_RUNTIME_DIR", "XDG_CONFIG_HOME", "PULSE_RUNTIME_PATH", "PULSE_STATE_PATH")) {
      environment.put(key, folder.toString());
    }
  }

  private boolean answers() throws IOException, InterruptedException {
    standing();
    return call(List.of("pactl", "info")).exit() == 0;
  }

  private void standing() throws IOException {
    if (!process.isAlive()) {
      throw new IOException(
          "the sound server has ended with " + process.exitValue() + ": see " + folder);
    }
  }

  /** Asks the server for something; fails if it refuses. Returns its answer. */
  public String control(String... words) throws IOException, InterruptedException {
    standing();
    List<String> command = new ArrayList<>(List.of("pactl"));
    command.addAll(Arrays.asList(words));
    Answer answer = call(command);
    if (answer.exit() != 0) {
      throw new IOException(command + ": " + answer.text());
    }
    return answer.text().strip();
  }

  private record Answer(int exit, String text) {}

  private Answer call(List<String> command) throws IOException, InterruptedException {
    ProcessBuilder builder = new ProcessBuilder(command).redirectErrorStream(true);
    ownFolders(builder.environment(), folder);
    Process call = builder.start();
    String text = new String(call.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    return new Answer(call.waitFor(), text);
  }

  @Override
  public void close() {
    process.destroy();
    try {
      if (!process.waitFor(5, TimeUnit.SECONDS)) {
        process.destroyForcibly();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
