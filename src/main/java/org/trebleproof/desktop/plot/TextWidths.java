package org.trebleproof.desktop.plot;

import java.util.HashMap;
import java.util.Map;
import javafx.scene.text.Font;
import javafx.scene.text.Text;

/** How wide words are when drawn; each is measured once. */
final class TextWidths {

  /** Read-outs change all the time: what is remembered must not grow for ever. */
  private static final int MOST = 500;

  private final Text ruler = new Text();
  private final Map<String, Double> known = new HashMap<>();
  private Font font;

  double of(String words, Font inFont) {
    if (!inFont.equals(font) || known.size() > MOST) {
      font = inFont;
      ruler.setFont(inFont);
      known.clear();
    }
    return known.computeIfAbsent(
        words,
        w -> {
          ruler.setText(w);
          return ruler.getLayoutBounds().getWidth();
        });
  }
}
