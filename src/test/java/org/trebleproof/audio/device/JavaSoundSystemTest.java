package org.trebleproof.audio.device;

import java.io.IOException;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;

/** Java's sound library against a real sound server. */
@Tag("soundserver")
final class JavaSoundSystemTest extends SoundSystemContract {

  private static SoundServer server;

  private final JavaSoundSystem system = new JavaSoundSystem();

  @BeforeAll
  static void startServer() throws IOException, InterruptedException {
    server = SoundServer.start();
  }

  @AfterAll
  static void stopServer() {
    server.close();
  }

  @Override
  SoundSystem system() {
    return system;
  }

  @Override
  SoundDevice playback() {
    return device(SoundDevice.Direction.PLAYBACK);
  }

  @Override
  SoundDevice recording() {
    return device(SoundDevice.Direction.RECORDING);
  }

  private SoundDevice device(SoundDevice.Direction direction) {
    return system.devices().stream()
        .filter(d -> d.direction() == direction)
        .findFirst()
        .orElseThrow();
  }
}
