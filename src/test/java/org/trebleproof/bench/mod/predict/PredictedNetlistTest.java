package org.trebleproof.bench.mod.predict;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.TypedGuitars;
import org.trebleproof.circuit.CoilModel;
import org.trebleproof.circuit.CoilParameter;
import org.trebleproof.quantity.Marking;

/** The netlist of a predicted circuit, solved by ngspice on the spot. */
@Tag("ngspice")
class PredictedNetlistTest {

  @ParameterizedTest
  @ValueSource(
      strings = {
        "volume=500k,tone=500k",
        "volumeRotation=0.5,toneRotation=0.3,tonePosition=after,inputCapacitance=80p",
        "volumeRotation=0.5,bleedCapacitor=1n",
        "bassCapacitor=2.2n",
        "pickups=pickup+neck",
        "pickups=pickup+neck,joint=series",
        "pickups=pickup+neck+middle,selector=1",
        "pickups=pickup+neck+middle,selector=2",
        "pickups=pickup+neck+middle,selector=3",
        "pickups=pickup+neck+middle,selector=4,volumeRotation=0.7",
        "pickups=pickup+neck+middle,selector=5",
        "pickups=pickup+neck,joint=series,secondVolume=250k,secondVolumeRotation=0.5",
        "tap=on",
        "volumeRotation=0.5,bleedCapacitor=1n,bleedResistor=150k",
        "volumeRotation=0.3,bleedCapacitor=1n,bleedResistor=150k,bleedStyle=series",
        "bassCapacitor=2.2n,bassPot=1M,bassPotRotation=0.5",
        "pickups=pickup+neck,joint=series,phase=out,output=0.8",
        "pickups=pickup+neck,secondVolume=250k,secondVolumeRotation=0.5,secondTone=250k,"
            + "secondToneCapacitor=22n,volumeWiring=independent,volumeRotation=0.8",
        "tap=on,tapResistor=4.7k,loadCapacitor=220p,loadResistor=390k"
      })
  void anotherSimulatorAgrees(String changes, @TempDir Path folder)
      throws IOException, InterruptedException {
    held(
        TypedGuitars.with(
            TypedGuitars.threePickups(
                "volume=250k,tone=250k,toneCapacitor=22n,cable=500p,input=1M"),
            changes),
        folder);
  }

  /** A coil as a fit may choose it, with dielectric loss of constant phase. */
  @Test
  void lossOfConstantPhaseToo(@TempDir Path folder) throws IOException, InterruptedException {
    SignalChain typed =
        TypedGuitars.single("volume=250k,tone=250k,toneCapacitor=22n,cable=500p,input=1M");
    CoilModel coil = CoilModel.LOSS_RESISTOR.withConstantPhase();
    CoilParameter tangent =
        coil.parameters().stream()
            .filter(p -> p.role() == CoilParameter.Role.LOSS_TANGENT)
            .findFirst()
            .orElseThrow();
    SignalChain lossy =
        new SignalChain(
            typed.title(),
            Map.of("pickup", coil),
            typed.knowledge().and(Map.of(tangent.in("pickup"), new Marking(0.03, 0.1, true))),
            typed.slots(),
            typed.layouts(),
            typed.current(),
            List.of());
    held(TypedGuitars.with(lossy, "cable=none,tone=none,toneCapacitor=none"), folder);
  }

  private static void held(SignalChain chain, Path folder)
      throws IOException, InterruptedException {
    Predictor predictor =
        new Predictor(chain, chain.layout(Optional.empty()), chain.layouts().get("then"), 100);
    Files.writeString(
        folder.resolve("then.cir"), predictor.deck().text("predicted", "answer.data"));
    Process process =
        new ProcessBuilder("ngspice", "-b", "then.cir")
            .directory(folder.toFile())
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve("log").toFile())
            .start();
    assertTrue(process.waitFor(60, TimeUnit.SECONDS));
    List<double[]> rows =
        Files.readAllLines(folder.resolve("answer.data")).stream()
            .map(
                l ->
                    Arrays.stream(l.trim().split("\\s+"))
                        .mapToDouble(Double::parseDouble)
                        .toArray())
            .toList();
    double[] here = predictor.curve(rows.stream().mapToDouble(r -> r[0]).toArray());
    for (int i = 0; i < here.length; i++) {
      double there = 20 * Math.log10(Math.hypot(rows.get(i)[1], rows.get(i)[2]));
      assertEquals(there, here[i], 1e-6, rows.get(i)[0] + " Hz");
    }
  }
}
