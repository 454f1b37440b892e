package org.trebleproof.circuit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

class SpiceNetlistTest {

  private static final String COMMAND = "x\n.control\rshell y\u2028.endc\u0085.end\u0000\u001b[2J";

  /** A simulator runs what stands between .control and .endc: other people's text is a remark. */
  @Test
  void foreignTextNeverBeginsALineNorHoldsAControl() {
    Circuit circuit =
        new Circuit(
            List.of(
                new Element.Resistor(1, 0, COMMAND + " R"),
                new Element.Capacitor(1, 0, COMMAND + " C")),
            1,
            1);
    String deck =
        SpiceNetlist.deck(
            COMMAND,
            circuit,
            new double[] {1e5, 1e-9},
            Probe.JACK_IMPEDANCE,
            20,
            20000,
            10,
            "a b\n.control");
    assertTrue(
        deck.codePoints().allMatch(c -> c == '\n' || !Character.isISOControl(c) && c != 0x2028),
        deck);
    Pattern own =
        Pattern.compile(
            "\\* .*|[RCI][0-9a-z]* [0-9]+ [0-9]+ .*|Iprobe .*|\\.(control|endc|end)|set numdgt=16"
                + "|ac dec .*|let answer = .*|wrdata [A-Za-z0-9._-]+ answer");
    deck.lines().forEach(line -> assertTrue(own.matcher(line).matches(), line));
    assertEquals(1, deck.lines().filter(".control"::equals).count());
  }
}
