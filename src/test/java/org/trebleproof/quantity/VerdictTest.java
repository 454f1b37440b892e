package org.trebleproof.quantity;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class VerdictTest {

  private static final RowKey INDUCTANCE = row(Quantity.INDUCTANCE);
  private static final RowKey RESISTANCE = row(Quantity.RESISTANCE);
  private static final RowKey CAPACITANCE = row(Quantity.CAPACITANCE);

  private static RowKey row(Quantity quantity) {
    return RowKey.of(Subject.coil("coil", true), quantity);
  }

  private static Finding found(FindingCode code) {
    return Finding.of(code, "text of " + code, "evidence of " + code, "next of " + code);
  }

  private static List<FindingCode> codes(List<Finding> findings) {
    return findings.stream().map(Finding::code).toList();
  }

  @Test
  void aWrongMarkingIsTheCauseOfAnImpossiblePickup() {
    Finding root = found(FindingCode.MARKING_CONTRADICTED);
    List<Finding> all =
        new ArrayList<>(
            List.of(found(FindingCode.IMPLAUSIBLE_PICKUP), found(FindingCode.NO_MODEL_FITS), root));
    Random random = new Random(7);
    for (int i = 0; i < 6; i++) {
      Collections.shuffle(all, random);
      Verdict verdict = new Verdict(all);
      assertEquals(List.of(root), verdict.errors(), all.toString());
      assertEquals(root, verdict.findings().get(0));
      assertEquals(3, verdict.findings().size(), "nothing is lost for other programs");
    }
  }

  @Test
  void anErrorThatWithdrawsAFewRowsLeadsWhenTheRestFollowsFromIt() {
    Finding few = found(FindingCode.NO_MODEL_FITS).about(List.of(INDUCTANCE));
    Verdict verdict = new Verdict(List.of(found(FindingCode.IMPLAUSIBLE_PICKUP), few));
    assertTrue(verdict.refused());
    assertEquals(few, verdict.cause().orElseThrow());
  }

  @Test
  void whatRefusesComesBeforeWhatWithdrawsAFewRows() {
    Finding few = found(FindingCode.TWIN_SOLUTION).about(List.of(INDUCTANCE));
    Verdict verdict = new Verdict(List.of(few, found(FindingCode.SAME_RECORDING)));
    assertEquals(
        List.of(FindingCode.SAME_RECORDING, FindingCode.TWIN_SOLUTION), codes(verdict.errors()));
  }

  @Test
  void withdrawsWhatIsNamed() {
    Verdict verdict =
        new Verdict(List.of(found(FindingCode.TWIN_SOLUTION).about(List.of(INDUCTANCE))));
    assertEquals(Verdict.Standing.PARTLY_WITHDRAWN, verdict.standing());
    assertTrue(verdict.withdraws(INDUCTANCE));
    assertFalse(verdict.withdraws(RESISTANCE));
    assertTrue(verdict.curvesStand());
    assertFalse(
        new Verdict(List.of(found(FindingCode.NO_MODEL_FITS).about(List.of(INDUCTANCE))))
            .curvesStand());
  }

  @Test
  void warningsAndNotesWithdrawNothing() {
    Verdict verdict =
        new Verdict(
            List.of(
                found(FindingCode.ONLY_THE_SUM).about(List.of(CAPACITANCE)),
                found(FindingCode.HUM)));
    assertTrue(verdict.stands());
    assertFalse(verdict.withdraws(CAPACITANCE));
    assertEquals(List.of(FindingCode.HUM), codes(verdict.toMind()));
    assertTrue(Verdict.CLEAR.stands());
  }

  @Test
  void aRecordingLeftOutRefusesNothing() {
    assertTrue(new Verdict(List.of(found(FindingCode.SILENT))).stands());
  }

  /** Clipping explains the distortion of its own recording, not of another. */
  @Test
  void oneRecordingDoesNotExplainAnother() {
    Finding clipped = found(FindingCode.CLIPPING).in("before");
    assertEquals(
        List.of(),
        new Verdict(List.of(found(FindingCode.DISTORTION).in("before"), clipped)).warnings());
    assertEquals(
        List.of(FindingCode.DISTORTION),
        codes(new Verdict(List.of(found(FindingCode.DISTORTION).in("after"), clipped)).warnings()));
    assertEquals(List.of(clipped), new Verdict(List.of(clipped)).errorsOf("before"));
    assertEquals(List.of(), new Verdict(List.of(clipped)).errorsOf("after"));
  }

  @Test
  void aMilderFindingHidesNoGraverOne() {
    Finding clicks =
        Finding.milder(FindingCode.CRACKLE, "clicks", "", ""); // a warning; explains nothing
    Finding rough = Finding.milder(FindingCode.SWEEP_CUT_OFF, "cut", "", "");
    Finding lost = found(FindingCode.DROPPED_SAMPLES);
    assertEquals(List.of(rough), new Verdict(List.of(clicks, rough, lost)).warnings());
    assertEquals(List.of(lost), new Verdict(List.of(clicks, rough, lost)).errors());
  }

  @Test
  void whatIsFoundTwiceIsToldOnce() {
    assertEquals(
        1,
        new Verdict(List.of(found(FindingCode.CLIPPING), found(FindingCode.CLIPPING)))
            .findings()
            .size());
  }

  @Test
  void aFindingKeepsToItsEntry() {
    assertThrows(
        IllegalArgumentException.class,
        () ->
            new Finding(
                Finding.Severity.WARNING, FindingCode.CLIPPING, "", "", "", List.of(), List.of()));
    assertThrows(
        IllegalArgumentException.class,
        () -> found(FindingCode.CLIPPING).about(List.of(INDUCTANCE)));
  }
}
