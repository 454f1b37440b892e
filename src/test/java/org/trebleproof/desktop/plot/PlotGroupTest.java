package org.trebleproof.desktop.plot;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.junit.jupiter.api.Test;

/** What linked plots share, without a window. */
class PlotGroupTest {

  private static final FrequencySpan WHOLE = new FrequencySpan(20, 20000);

  @Test
  void axisHoldsAllPlots() {
    PlotGroup group = new PlotGroup();
    group.enter("levels", new FrequencySpan(80, 14000));
    assertEquals(new FrequencySpan(80, 14000), group.span());
    group.enter("capture", new FrequencySpan(20, 20000));
    assertEquals(new FrequencySpan(20, 20000), group.span());
    group.exit("capture");
    assertEquals(new FrequencySpan(80, 14000), group.span());
  }

  @Test
  void everyStepIsTakenBackAndForward() {
    PlotGroup group = new PlotGroup();
    group.show(1000, 4000);
    group.show(2000, 3000);
    group.goBack();
    assertEquals(new FrequencySpan(1000, 4000), group.span());
    group.goBack();
    assertEquals(WHOLE, group.span());
    assertFalse(group.canGoBackProperty().get());
    group.goForward();
    group.goForward();
    assertEquals(new FrequencySpan(2000, 3000), group.span());
    assertFalse(group.canGoForwardProperty().get());
    group.goBack();
    group.show(500, 600);
    assertFalse(group.canGoForwardProperty().get());
  }

  @Test
  void turningTheWheelIsOneStep() {
    PlotGroup group = new PlotGroup();
    for (int i = 0; i < 20; i++) {
      group.turn(1000, 0.9);
    }
    assertEquals(1.2115, group.span().octaves(), 0.01); // log2(1000) * 0.9^20
    group.settle();
    group.turn(1000, 0.9);
    group.goBack();
    group.goBack();
    assertEquals(WHOLE, group.span());
    assertFalse(group.canGoBackProperty().get());
  }

  @Property(seed = "20261125")
  void whatIsZoomedAboutStays(
      @ForAll @DoubleRange(min = 100, max = 5000) double hz,
      @ForAll @DoubleRange(min = 0.05, max = 1) double factor) {
    FrequencySpan closer = WHOLE.zoomed(hz, factor, WHOLE);
    assertEquals(WHOLE.share(hz), closer.share(hz), 0.002 + (closer.octaves() < 0.09 ? 1 : 0));
    assertTrue(closer.lowHz() >= 20 && closer.highHz() <= 20000);
  }

  @Property(seed = "20261125")
  void nothingLeavesTheWhole(
      @ForAll @DoubleRange(min = 1, max = 30000) double low,
      @ForAll @DoubleRange(min = 1.01, max = 100) double ratio,
      @ForAll @DoubleRange(min = -9, max = 9) double octaves) {
    FrequencySpan inside = new FrequencySpan(low, low * ratio).inside(WHOLE);
    for (FrequencySpan span : new FrequencySpan[] {inside, inside.moved(octaves, WHOLE)}) {
      assertTrue(span.lowHz() >= 20 * (1 - 1e-9) && span.highHz() <= 20000 * (1 + 1e-9));
    }
    assertEquals(inside.octaves(), inside.moved(octaves, WHOLE).octaves(), 1e-9);
  }

  @Test
  void heldCursorDoesNotFollowThePointer() {
    PlotGroup group = new PlotGroup();
    group.point(500);
    assertEquals(500, group.cursorProperty().get());
    group.hold(1000);
    group.point(700);
    group.leave();
    assertEquals(1000, group.cursorProperty().get());
    group.mark(30000);
    assertEquals(20000, group.markProperty().get());
    group.clearCursors();
    assertTrue(Double.isNaN(group.cursorProperty().get()));
    group.point(700);
    group.leave();
    assertTrue(Double.isNaN(group.cursorProperty().get()));
  }
}
