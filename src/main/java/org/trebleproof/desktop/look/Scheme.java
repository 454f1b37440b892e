package org.trebleproof.desktop.look;

/** Which of the two looks is wanted. */
public enum Scheme {
  SYSTEM,
  LIGHT,
  DARK
}
