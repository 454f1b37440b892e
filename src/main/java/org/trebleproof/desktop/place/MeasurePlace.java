package org.trebleproof.desktop.place;

import org.trebleproof.desktop.text.Texts;

/** Where recordings come from. */
public final class MeasurePlace extends Place {

  /**
   * The place.
   *
   * @param addFiles asks for recordings
   */
  public MeasurePlace(Runnable addFiles) {
    super("measure-place");
    write(
        Ink.styled(Texts.of("measure.title"), "lead"),
        Ink.text(Texts.of("measure.words")),
        LineDrawing.exciter(),
        Ink.styled(Texts.of("caution.exciter"), "caution"),
        LineDrawing.series(),
        Ink.styled(Texts.of("caution.series"), "caution"),
        Ink.mainButton(Texts.of("captures.add"), addFiles));
  }
}
