package org.trebleproof.cli.live;

import java.util.ArrayList;
import java.util.List;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import org.trebleproof.audio.device.DeviceFormat;
import org.trebleproof.audio.device.JavaSoundSystem;
import org.trebleproof.audio.device.SoundDevice;
import org.trebleproof.audio.device.SoundSystem;
import org.trebleproof.cli.command.ExitCode;
import org.trebleproof.cli.command.Subcommand;
import org.trebleproof.cli.command.Terminal;
import org.trebleproof.quantity.Refusal;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.ParseResult;

/** {@code devices}: what sound can be played and recorded with. */
public final class DevicesCommand implements Subcommand {

  private final Supplier<SoundSystem> systems;

  public DevicesCommand() {
    this(JavaSoundSystem::new);
  }

  DevicesCommand(Supplier<SoundSystem> systems) {
    this.systems = systems;
  }

  @Override
  public CommandSpec spec() {
    CommandSpec spec = CommandSpec.create();
    spec.usageMessage()
        .description(
            "Lists playback and recording devices.",
            "With the rates, bits and channels that really open: each is tried.")
        .footer("", "Example:", "  trebleproof devices");
    return spec;
  }

  @Override
  public int run(ParseResult given, Terminal terminal) {
    SoundSystem system = systems.get();
    List<SoundDevice> devices = system.devices();
    if (devices.isEmpty()) {
      throw new Refusal(
          "no sound device was found: plug the interface in, switch it on, and see that the sound"
              + " system runs for this user.");
    }
    for (SoundDevice.Direction direction : SoundDevice.Direction.values()) {
      terminal.say(direction == SoundDevice.Direction.PLAYBACK ? "Playback" : "Recording");
      boolean any = false;
      for (SoundDevice device : devices) {
        if (device.direction() == direction) {
          any = true;
          terminal.say("  " + device.name());
          lines(system.formats(device)).forEach(l -> terminal.say("    " + l));
        }
      }
      if (!any) {
        terminal.say("  none");
      }
    }
    return ExitCode.DONE;
  }

  /** Formats of equal bits and channels on one line. */
  static List<String> lines(List<DeviceFormat> formats) {
    TreeMap<String, TreeSet<String>> byRates = new TreeMap<>();
    TreeMap<Integer, List<DeviceFormat>> byRate =
        formats.stream()
            .collect(
                Collectors.groupingBy(DeviceFormat::sampleRate, TreeMap::new, Collectors.toList()));
    byRate.forEach(
        (rate, list) -> {
          String bits = joined(list.stream().map(DeviceFormat::bits).toList());
          String channels = joined(list.stream().map(DeviceFormat::channels).toList());
          byRates
              .computeIfAbsent(
                  bits + " bits, " + channels + (channels.equals("1") ? " channel" : " channels"),
                  k -> new TreeSet<>((a, b) -> Integer.compare(number(a), number(b))))
              .add(Integer.toString(rate));
        });
    List<String> lines = new ArrayList<>();
    byRates.forEach((what, rates) -> lines.add(String.join(", ", rates) + " Hz: " + what));
    return lines.isEmpty() ? List.of("does not open: another program may hold it") : lines;
  }

  private static int number(String text) {
    return Integer.parseInt(text);
  }

  private static String joined(List<Integer> numbers) {
    return new TreeSet<>(numbers)
        .stream().map(n -> Integer.toString(n)).collect(Collectors.joining("/"));
  }
}
