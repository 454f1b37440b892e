package org.trebleproof.shelf.evening;

import java.nio.file.Path;
import org.trebleproof.shelf.item.CoilAnswer;

/** Is told how an evening goes, coil by coil, from one thread. */
public interface EveningListener {

  /** A coil is on the shelf. */
  void kept(Path file, String name, CoilAnswer answer, Standing standing);

  /** Its recording is on the shelf already, so it was not measured again. */
  void known(Path file, String name, Standing standing);

  /** A file that could not be used; nothing of it is kept. */
  void unusable(Path file, String why, Standing standing);

  /**
   * How far it is.
   *
   * @param done files, this one included
   * @param all files
   * @param left seconds that the rest will take; NaN where nobody knows yet
   */
  record Standing(int done, int all, double left) {}
}
