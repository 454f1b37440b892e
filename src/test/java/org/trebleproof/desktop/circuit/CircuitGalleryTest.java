package org.trebleproof.desktop.circuit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Map;
import java.util.Optional;
import javafx.scene.Node;
import org.junit.jupiter.api.Test;
import org.testfx.util.WaitForAsyncUtils;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.predict.Predictor;
import org.trebleproof.desktop.plot.Gallery;

/** Pictures of the circuit panel in every look, for somebody to look at. */
class CircuitGalleryTest {

  private static WhatIfPanel shown(SignalChain chain, int width, int height) throws Exception {
    return Gallery.shown(
        () -> {
          WhatIfPanel panel = new WhatIfPanel();
          panel.show(chain, chain.layout(Optional.empty()));
          return panel;
        },
        width,
        height);
  }

  private static void onScreen(Runnable work) throws Exception {
    WaitForAsyncUtils.waitForAsyncFx(
        10000,
        () -> {
          work.run();
          return null;
        });
    settle();
  }

  private static void settle() throws Exception {
    Thread.sleep(700);
    Gallery.frames(3);
  }

  @Test
  void usualWiring() throws Exception {
    SignalChain chain = ExampleGuitars.guitar(ExampleGuitars.USUAL);
    WhatIfPanel panel = shown(chain, 1000, 640);
    settle();
    Gallery.keep(panel, "circuit");
    onScreen(() -> panel.setChanges(Map.of("volume", "500k", "toneRotation", "0.4")));
    WhatIf state = WhatIf.of(chain, chain.layout(Optional.empty()), panel.changesProperty().get());
    onScreen(
        () ->
            panel.showPrediction(
                state.then(),
                new Predictor(state.chain(), state.now(), state.then(), 200).predict()));
    Gallery.keep(panel, "circuit-changed");
    Node volume = panel.lookup("#circuit-volume");
    onScreen(volume::requestFocus);
    Gallery.keep(panel, "circuit-lit");
    assertTrue(volume.getAccessibleText().startsWith("volume pot: 500k"));
    assertEquals(2, panel.changesProperty().get().size());
  }

  @Test
  void furtherWirings() throws Exception {
    SignalChain two =
        ExampleGuitars.guitar(
            "pickups=bridge+neck,joint=series,"
                + "volume=500k,tone=500k,toneCapacitor=22n,bleedCapacitor=1n,bleedResistor=150k,"
                + "cable=700p,input=1M,inputCapacitance=20p");
    WhatIfPanel panel = shown(two, 1000, 800);
    settle();
    Gallery.keep(panel, "circuit-series-bleed");
    assertTrue(panel.lookup("#circuit-bleedCapacitor").isFocusTraversable());
  }
}
