package org.trebleproof;

import java.util.Optional;
import org.trebleproof.cli.Main;
import org.trebleproof.desktop.DesktopStart;

/** Chooses the face: the window where nothing is asked for, else the command line. */
public final class Start {

  private Start() {}

  /** Starts the program. */
  public static void main(String[] arguments) {
    if (arguments.length == 0) {
      Optional<String> why = DesktopStart.open();
      if (why.isEmpty()) {
        return;
      }
      System.err.println("trebleproof: " + why.get());
      System.err.println();
    }
    Main.main(arguments);
  }
}
