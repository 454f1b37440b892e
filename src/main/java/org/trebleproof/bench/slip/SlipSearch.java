package org.trebleproof.bench.slip;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.trebleproof.bench.answer.Slip;
import org.trebleproof.bench.job.CaptureEntry;
import org.trebleproof.bench.job.Job;
import org.trebleproof.bench.model.FirstFit;
import org.trebleproof.bench.sweep.CaptureReading;
import org.trebleproof.fixture.Fixture;
import org.trebleproof.fixture.PreFlight;
import org.trebleproof.quantity.Response;
import org.trebleproof.quantity.Refusal;

/** Looks for the single slip with which everything about a job agrees. */
public final class SlipSearch {

  private final Job job;
  private final Map<Path, CaptureReading> readings = new LinkedHashMap<>();

  public SlipSearch(Job job, List<CaptureReading> read) {
    this.job = job;
    read.forEach(r -> readings.put(r.entry().file(), r));
  }

  public record Tried(Supposition supposition, FirstFit fit, double cost) {
    public double score() {
      return fit.criterion() + cost;
    }

    public String words() {
      return supposition.kind().key() + supposition.at();
    }

    public Slip slip() {
      return supposition.slip(fit);
    }
  }

  public List<Tried> all(List<Supposition> suppositions) {
    Map<Slip.Kind, Long> variants =
        suppositions.stream()
            .collect(
                java.util.stream.Collectors.groupingBy(
                    Supposition::kind, java.util.stream.Collectors.counting()));
    return suppositions.parallelStream()
        .flatMap(
            s -> {
              try {
                Job supposed = s.supposed(job);
                return java.util.stream.Stream.of(
                    new Tried(
                        s,
                        FirstFit.of(supposed, responses(supposed), s.open()),
                        2 * Math.log(variants.get(s.kind()))));
              } catch (Refusal cannotBeWiredSo) {
                return java.util.stream.Stream.empty();
              }
            })
        .sorted(Comparator.comparingDouble(Tried::score))
        .toList();
  }

  public List<Tried> refined(List<Tried> tried) {
    List<Tried> refined = new ArrayList<>();
    for (Tried t : tried) {
      Job supposed = t.supposition().supposed(job);
      refined.add(
          new Tried(
              t.supposition(),
              FirstFit.best(supposed, responses(supposed), t.supposition().open()),
              t.cost()));
    }
    refined.sort(Comparator.comparingDouble(Tried::score));
    return refined;
  }

  public List<Tried> fits() {
    return all(Suppositions.of(job));
  }

  public FirstFit asStated() {
    return FirstFit.best(job, responses(job), Map.of());
  }

  /** What the captures show if a job is so. */
  private Map<String, Response> responses(Job supposed) {
    Map<String, Response> responses = new LinkedHashMap<>();
    for (CaptureEntry c : supposed.captures()) {
      responses.put(c.id(), taken(readings.get(c.file()), c.handling(), supposed.fixture()));
    }
    return responses;
  }

  private Response taken(CaptureReading reading, CaptureEntry.Handling handling, Fixture fixture) {
    Fixture stated = job.fixture();
    boolean exchanged = fixture.referenceChannel() != stated.referenceChannel();
    boolean turned = exchanged ^ handling.swapped() ^ reading.entry().handling().swapped();
    double rate = handling.sampleRate().orElse(reading.sampleRate()) / reading.sampleRate();
    Response r = reading.measured();
    if (rate != 1) {
      double[] hz = r.hz().clone();
      for (int i = 0; i < hz.length; i++) {
        hz[i] *= rate;
      }
      r = new Response(hz, r.re(), r.im(), r.sd());
    }
    if (turned) {
      r = inverse(r);
    }
    return turned || fixture.getClass() != stated.getClass() ? PreFlight.upright(fixture, r) : r;
  }

  private static Response inverse(Response r) {
    int n = r.size();
    double[] re = new double[n];
    double[] im = new double[n];
    double[] sd = new double[n];
    for (int i = 0; i < n; i++) {
      double power = r.re()[i] * r.re()[i] + r.im()[i] * r.im()[i];
      re[i] = r.re()[i] / power;
      im[i] = -r.im()[i] / power;
      sd[i] = r.sd()[i] / power;
    }
    return new Response(r.hz(), re, im, sd);
  }
}
