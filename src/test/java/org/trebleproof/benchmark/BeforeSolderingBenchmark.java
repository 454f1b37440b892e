package org.trebleproof.benchmark;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.trebleproof.bench.job.Layout;
import org.trebleproof.bench.job.PlanReader;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.TypedCoil;
import org.trebleproof.bench.mod.predict.Prediction;
import org.trebleproof.bench.mod.predict.Predictor;
import org.trebleproof.bench.mod.search.FoundParts;
import org.trebleproof.bench.mod.search.PartsSearch;
import org.trebleproof.bench.mod.search.Target;
import org.trebleproof.quantity.MarkedQuantity;
import org.trebleproof.quantity.TradeNotation;

/**
 * The curve while a pot is turned, a prediction with its band, and a search for parts; {@code
 * src/test/scipy/before_soldering.py} times the same work in vectorised NumPy.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 2, time = 2)
@Measurement(iterations = 3, time = 2)
public class BeforeSolderingBenchmark {
  private final SignalChain full = guitar("volume=250k,volumeRotation=0.5");
  private final SignalChain swap =
      guitar("volume=250k").with("then", now(guitar("volume=250k")), parsed("volume=500k"));
  private final double[] thousand = new double[1000];
  private int turn;

  public BeforeSolderingBenchmark() {
    for (int i = 0; i < thousand.length; i++) {
      thousand[i] = 20 * Math.pow(1000, i / 999.0);
    }
  }

  private static Map<String, String> parsed(String text) {
    return PlanReader.parsed(List.of(text));
  }

  private static Layout now(SignalChain chain) {
    return chain.layout(Optional.empty());
  }

  private static SignalChain guitar(String volume) {
    Map<String, TypedCoil> coils = new LinkedHashMap<>();
    coils.put(
        "pickup",
        new TypedCoil(
            TradeNotation.marking("2.4", MarkedQuantity.COIL_INDUCTANCE),
            TradeNotation.marking("5.7k", MarkedQuantity.PICKUP_RESISTANCE),
            TradeNotation.marking("120p", MarkedQuantity.WINDING_CAPACITANCE),
            Optional.of(TradeNotation.marking("800k", MarkedQuantity.LOSS_RESISTANCE))));
    return TypedCoil.guitar(
        coils, parsed(volume + ",tone=250k,toneCapacitor=22n,cable=500p,input=1M"));
  }

  /** A new curve of 1000 points as the volume pot is turned (two nodes). */
  @Benchmark
  public double[] potDrag() {
    turn = turn % 98 + 1;
    Layout turned =
        now(full)
            .with(org.trebleproof.bench.job.Slot.VOLUME, new Layout.Turned(turn / 100.0, 0.15));
    return new Predictor(full, turned, turned, 1).curve(thousand);
  }

  /** A pot swap with the band of 10,000 random guitars at 203 points, before and after. */
  @Benchmark
  public Prediction tenThousandGuitars() {
    return new Predictor(swap, now(swap), swap.layouts().get("then"), 10_000).predict();
  }

  /** Every combination of up to four parts: {@link FoundParts#tried()} of them. */
  @Benchmark
  public FoundParts search() {
    return new PartsSearch(swap, now(swap), new Target.Peak(3200, Optional.of(4.0)), 5).find();
  }
}
