package org.trebleproof.circuit;

import java.util.List;

/**
 * A circuit as a netlist for SPICE (ngspice's dialect; the frequency-proportional conductance of a
 * lossy capacitor uses its variable {@code hertz}). Solid cores are written as their {@link
 * FosterLadder}. The vector {@code answer} of the deck is the probe's value.
 *
 * <p>A simulator runs commands that stand in a deck. Other people's text, a title or the name of a
 * part, stands in comments only, each on one line that begins here.
 */
public final class SpiceNetlist {
  private final Circuit circuit;
  private final double[] values;
  private final Probe probe;
  private final double highestHz;
  private final StringBuilder text = new StringBuilder();
  private int part;

  private SpiceNetlist(Circuit circuit, double[] values, Probe probe, double highestHz) {
    this.circuit = circuit;
    this.values = values;
    this.probe = probe;
    this.highestHz = highestHz;
  }

  /**
   * A complete deck that writes frequency, real and imaginary part of the answer to a file.
   *
   * @param title first line
   * @param circuit the circuit
   * @param values by slot, SI
   * @param probe what is asked
   * @param lowestHz first frequency
   * @param highestHz last frequency
   * @param perDecade points per decade
   * @param file name of the file the simulator writes
   */
  public static String deck(
      String title,
      Circuit circuit,
      double[] values,
      Probe probe,
      double lowestHz,
      double highestHz,
      int perDecade,
      String file) {
    return new SpiceNetlist(circuit, values, probe, highestHz)
        .write(title, lowestHz, perDecade, file);
  }

  private String write(String title, double lowestHz, int perDecade, String file) {
    comment(title);
    List<String> names = circuit.parameters();
    for (int i = 0; i < names.size(); i++) {
      comment(names.get(i) + " = " + values[i]);
    }
    circuit.elements().forEach(this::element);
    String port;
    String answer;
    switch (probe) {
      case EMF_TO_JACK, DRIVE_TO_JACK -> answer = "v(" + circuit.jack() + ")";
      case JACK_IMPEDANCE, PICKUP_IMPEDANCE -> {
        port = port();
        line("Iprobe 0 " + port + " dc 0 ac 1");
        answer = "v(" + port + ")";
      }
      case JACK_ADMITTANCE, PICKUP_ADMITTANCE -> {
        port = port();
        line("Vprobe " + port + " 0 dc 0 ac 1");
        answer = "-i(vprobe)";
      }
      default -> throw new IllegalStateException("unknown probe " + probe);
    }
    line(".control");
    line("set numdgt=16");
    line("ac dec " + perDecade + " " + lowestHz + " " + highestHz);
    line("let answer = " + answer);
    line("wrdata " + file.replaceAll("[^A-Za-z0-9._-]", "_") + " answer");
    line(".endc");
    line(".end");
    return text.toString();
  }

  private String port() {
    boolean jack = probe == Probe.JACK_IMPEDANCE || probe == Probe.JACK_ADMITTANCE;
    return Integer.toString(jack ? circuit.jack() : circuit.pickup());
  }

  private void element(Element element) {
    part++;
    if (element instanceof Element.Resistor r) {
      two("R" + part, r.from(), r.to(), value(r.resistance()) * r.share());
    } else if (element instanceof Element.WiperResistor w) {
      two("R" + part, w.from(), w.to(), value(w.resistance()) * w.share(value(w.odds())));
    } else if (element instanceof Element.Capacitor c) {
      two("C" + part, c.from(), c.to(), value(c.capacitance()));
    } else if (element instanceof Element.LossyCapacitor c) {
      if (c.constantPhase()) {
        constantPhase(c);
        return;
      }
      double farad = value(c.capacitance());
      two("C" + part, c.from(), c.to(), farad);
      double perHertz = 2 * Math.PI * farad * value(c.lossTangent());
      String ends = c.from() + " " + c.to();
      String voltage = c.from() == 0 ? "-v(" + c.to() + ")" : difference(c.from(), c.to());
      line("B" + part + " " + ends + " i=(" + voltage + ")*hertz*" + perHertz);
    } else if (element instanceof Element.ResistorCapacitor rc) {
      String middle = "m" + part;
      two("R" + part, rc.from(), middle, value(rc.resistance()) * rc.share());
      two("C" + part, middle, rc.to(), value(rc.capacitance()));
    } else if (element instanceof Element.Coil c) {
      coil(c, "a", c.emfShare());
    } else if (element instanceof Element.CoupledCoils c) {
      pair(c);
    } else if (element instanceof Element.SeriesDrive d) {
      drive(d);
    } else if (element instanceof Element.CoupledInput i) {
      input(i);
    } else {
      throw new IllegalStateException("no place in a netlist for " + element);
    }
  }

  /** Asked for anything else, the drive is not there. */
  private void drive(Element.SeriesDrive drive) {
    if (probe == Probe.DRIVE_TO_JACK) {
      line("Vdrive drive 0 dc 0 ac 1");
      two("R" + part, "drive", drive.to(), value(drive.resistance()));
      drive.across().ifPresent(c -> two("C" + part, "drive", drive.to(), value(c)));
    }
  }

  /**
   * C (jw/w0)^-e as two controlled sources: a conductance, and a capacitance whose current is that
   * of 1 F at the same voltage, both times a power of the frequency.
   */
  private void constantPhase(Element.LossyCapacitor c) {
    double exponent = 2 / Math.PI * Math.atan(value(c.lossTangent()));
    double quoted = Element.LossyCapacitor.QUOTED / (2 * Math.PI);
    double farad = value(c.capacitance()) * Math.pow(quoted, exponent);
    double angle = exponent * Math.PI / 2;
    String ends = c.from() + " " + c.to();
    String voltage = c.from() == 0 ? "-v(" + c.to() + ")" : difference(c.from(), c.to());
    line("E" + part + " q" + part + " 0 " + ends + " 1");
    two("C" + part, "q" + part, "p" + part, 1);
    line("V" + part + " p" + part + " 0 dc 0");
    line(
        "B"
            + part
            + " "
            + ends
            + " i=("
            + voltage
            + ")*"
            + 2 * Math.PI * farad * Math.sin(angle)
            + "*hertz^"
            + (1 - exponent)
            + "+i(V"
            + part
            + ")*"
            + farad * Math.cos(angle)
            + "/hertz^"
            + exponent);
  }

  /** Two resistors in parallel to ground, the second behind the capacitor of the same corner. */
  private void input(Element.CoupledInput input) {
    double behind = value(input.aheadOdds()) / (1 + value(input.aheadOdds()));
    double ohm = value(input.resistance());
    if (behind < 1) {
      two("R" + part, input.to(), 0, ohm / (1 - behind));
    }
    if (behind > 0) {
      double farad = behind / (2 * Math.PI * value(input.corner()) * ohm);
      two("C" + part, input.to(), "i" + part, farad);
      two("R" + part + "b", "i" + part, 0, ohm / behind);
    }
  }

  private static String difference(int from, int to) {
    return to == 0 ? "v(" + from + ")" : "v(" + from + ")-v(" + to + ")";
  }

  private void pair(Element.CoupledCoils pair) {
    double whole = pair.first().emfShare() + pair.second().emfShare();
    double induced =
        pair.inducedOdds()
            .map(this::value)
            .map(odds -> whole * odds / (1 + odds))
            .orElse(pair.first().emfShare());
    String first = coil(shortened(pair, pair.first(), "a"), "a", induced);
    String second = coil(shortened(pair, pair.second(), "b"), "b", whole - induced);
    double odds = value(pair.couplingOdds());
    line("K" + part + " " + first + " " + second + " " + odds / (1 + odds));
    pair.common().ifPresent(common -> common(common, pair));
  }

  /** The winding without the sections that metal seen by both adds at its end. */
  private Spread shortened(Element.CoupledCoils pair, Element.Coil coil, String side) {
    Object end = pair.common().isPresent() ? "u" + part + side : coil.to();
    return new Spread(coil.from(), end, coil.winding());
  }

  /**
   * Relaxations of shared flux: beside the circuit, a chain of them carries both windings'
   * currents, each times the root of its inductance, and its voltage is lent to both likewise.
   */
  private void common(Element.CommonDeparture common, Element.CoupledCoils pair) {
    String chain = "w" + part;
    lend(chain, "a", pair.first());
    lend(chain, "b", pair.second());
    departure(part + "w", chain, 0, 1, common.factors(), common.times());
  }

  private void lend(String chain, String side, Element.Coil coil) {
    String stem = part + side;
    double sum = coil.winding().plainInductance().stream().mapToDouble(this::value).sum();
    double root = Math.sqrt(sum);
    line("Vu" + stem + " u" + stem + " t" + stem + " dc 0");
    line("Fu" + stem + " 0 " + chain + " Vu" + stem + " " + root);
    line("Eu" + stem + " t" + stem + " " + coil.to() + " " + chain + " 0 " + root);
  }

  /** A winding between two nodes of the netlist. */
  private record Spread(Object from, Object to, Winding winding) {}

  private String coil(Element.Coil coil, String side, double induced) {
    return coil(new Spread(coil.from(), coil.to(), coil.winding()), side, induced);
  }

  /** Writes a winding; answers the name of its one loss-free inductor. */
  private String coil(Spread coil, String side, double induced) {
    String stem = part + side;
    Object at = coil.from();
    if (probe == Probe.EMF_TO_JACK) {
      String next = "e" + stem;
      line("V" + stem + " " + next + " " + at + " dc 0 ac " + induced);
      at = next;
    }
    Winding winding = coil.winding();
    int last = winding.inductances().size();
    if (winding.resistance().isPresent()) {
      Object next = last == 0 ? coil.to() : "n" + stem + "0";
      double warmth = winding.warmth().map(this::value).orElse(1.0);
      two("R" + stem, at, next, value(winding.resistance().get()) * warmth);
      at = next;
    }
    String lossFree = "";
    for (int i = 1; i <= last; i++) {
      Object next = i == last ? coil.to() : "n" + stem + i;
      String coupling = winding.inductances().get(i - 1).as(new Section(stem + i, at, next));
      lossFree = coupling.isEmpty() ? lossFree : coupling;
      at = next;
    }
    return lossFree;
  }

  /** Writes a part of a winding's inductance; answers the name of a loss-free inductor. */
  private final class Section implements Inductance.Kinds<String> {
    private final String name;
    private final Object from;
    private final Object to;

    Section(String name, Object from, Object to) {
      this.name = name;
      this.from = from;
      this.to = to;
    }

    @Override
    public String plain(Inductance.Plain part) {
      two("L" + name, from, to, value(part.inductance()));
      return "L" + name;
    }

    @Override
    public String lossResistor(Inductance.LossResistor part) {
      return parallel(value(part.inductance()), value(part.resistance()));
    }

    @Override
    public String split(Inductance.Split part) {
      double henry = value(part.inductance());
      return parallel(henry, henry / value(part.time()));
    }

    private String parallel(double henry, double ohm) {
      two("L" + name, from, to, henry);
      two("R" + name, from, to, ohm);
      return "";
    }

    @Override
    public String solidCore(Inductance.SolidCore part) {
      ladder(name, from, to, value(part.inductance()), value(part.time()));
      return "";
    }

    @Override
    public String departure(Inductance.Departure part) {
      SpiceNetlist.this.departure(
          name, from, to, value(part.inductance()), part.factors(), part.times());
      return "";
    }
  }

  /** Relaxations of either sign: an inductor and a resistor in parallel, both of that sign. */
  private void departure(
      String name, Object from, Object to, double henry, List<String> factors, List<Double> times) {
    Object at = from;
    int last = times.size() - 1;
    for (int n = 0; n <= last; n++) {
      Object next = n == last ? to : "d" + name + "x" + n;
      double section = henry * (value(factors.get(n)) - 1);
      if (section == 0) {
        line("V" + name + "x" + n + " " + at + " " + next + " dc 0");
      } else {
        two("L" + name + "x" + n, at, next, section);
        two("R" + name + "x" + n, at, next, section / times.get(n));
      }
      at = next;
    }
  }

  private void ladder(String name, Object from, Object to, double henry, double time) {
    FosterLadder ladder = FosterLadder.upTo(2 * Math.PI * highestHz * time);
    Object at = from;
    int last = ladder.shares().length - 1;
    for (int n = 0; n <= last; n++) {
      Object next = n == last ? to : "f" + name + "x" + n;
      double section = henry * ladder.shares()[n];
      two("L" + name + "x" + n, at, next, section);
      two("R" + name + "x" + n, at, next, section / (time * ladder.times()[n]));
      at = next;
    }
  }

  private void two(String name, Object from, Object to, double value) {
    line(name + " " + from + " " + to + " " + value);
  }

  private double value(String parameter) {
    return values[circuit.parameters().indexOf(parameter)];
  }

  private void comment(String foreign) {
    StringBuilder plain = new StringBuilder();
    foreign
        .codePoints()
        .forEach(
            c -> {
              int type = Character.getType(c);
              boolean breaks =
                  Character.isISOControl(c)
                      || type == Character.LINE_SEPARATOR
                      || type == Character.PARAGRAPH_SEPARATOR
                      || type == Character.SURROGATE;
              plain.appendCodePoint(breaks ? ' ' : c);
            });
    line("* " + plain);
  }

  private void line(String line) {
    text.append(line).append('\n');
  }
}
