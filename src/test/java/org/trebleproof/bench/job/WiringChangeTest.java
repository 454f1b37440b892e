package org.trebleproof.bench.job;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.trebleproof.bench.job.WiringChange.Thing;
import org.trebleproof.circuit.Harness;

class WiringChangeTest {

  private static Setup setup(
      String pickup, double rotation, Optional<String> tone, String lead, Extras extras) {
    return new Setup(
        "s",
        pickup,
        Optional.of(new Setup.PotUse("volume", rotation, 0.3)),
        tone.map(t -> new Setup.PotUse(t, 1, 0.5)),
        tone.map(t -> "cap"),
        false,
        Optional.of(lead),
        Optional.empty(),
        extras);
  }

  private static Extras with(Map<Slot, String> parts, Optional<String> second) {
    return new Extras(parts, Map.of(), false, false, second, Harness.Joint.PARALLEL, 1, false);
  }

  private static final Setup PLAIN = setup("pickup", 1, Optional.of("tone"), "lead", Extras.NONE);

  private static List<Thing> things(Setup from, Setup to) {
    return WiringChange.between(from, to).stream().map(WiringChange::thing).toList();
  }

  @Test
  void nothingDiffersFromItself() {
    assertEquals(List.of(), things(PLAIN, PLAIN));
  }

  @Test
  void whatCannotBeHadWithoutEachOtherIsOneThing() {
    Setup noTone = setup("pickup", 1, Optional.empty(), "lead", Extras.NONE);
    assertEquals(List.of(Thing.TONE_CIRCUIT), things(PLAIN, noTone));
    assertEquals(2, WiringChange.between(PLAIN, noTone).get(0).exchanges().size());
    Setup bleed =
        setup(
            "pickup",
            1,
            Optional.of("tone"),
            "lead",
            with(Map.of(Slot.BLEED_CAPACITOR, "c", Slot.BLEED_RESISTOR, "r"), Optional.empty()));
    assertEquals(List.of(Thing.BLEED), things(PLAIN, bleed));
    assertEquals(
        List.of(Thing.SECOND_PICKUP),
        things(
            PLAIN,
            setup("pickup", 1, Optional.of("tone"), "lead", with(Map.of(), Optional.of("neck")))));
  }

  @Test
  void severalThingsAreSeveralChanges() {
    Setup other = setup("other pickup", 0.5, Optional.of("new tone"), "short", Extras.NONE);
    assertEquals(
        List.of(Thing.PICKUP, Thing.TONE, Thing.CABLE, Thing.VOLUME_TURNED), things(PLAIN, other));
  }

  /** Made one after the other, in either order, they lead from the one wiring to the other. */
  @Test
  void allOfThemLeadFromOneWiringToTheOther() {
    Setup other =
        setup(
            "other pickup",
            0.5,
            Optional.empty(),
            "short",
            with(Map.of(Slot.LOAD_RESISTOR, "load"), Optional.of("neck")));
    for (Setup[] way : new Setup[][] {{PLAIN, other}, {other, PLAIN}}) {
      List<WiringChange> changes = WiringChange.between(way[0], way[1]);
      Layout forth = Layout.of(way[0]);
      Layout back = Layout.of(way[0]);
      for (int i = 0; i < changes.size(); i++) {
        forth = changes.get(i).made(forth);
        back = changes.get(changes.size() - 1 - i).made(back);
      }
      assertEquals(Layout.of(way[1]).parts(), forth.parts());
      assertEquals(Layout.of(way[1]).pickups(), forth.pickups());
      assertEquals(forth.parts(), back.parts());
      assertEquals(
          Layout.of(way[1]).turned(Slot.VOLUME).rotation(), forth.turned(Slot.VOLUME).rotation());
    }
  }
}
