package org.trebleproof.cli;

/** The version of this build. */
final class Version {

  private Version() {}

  /** As the jar's manifest has it; a plain word where the classes do not come from a jar. */
  static String text() {
    String version = Version.class.getPackage().getImplementationVersion();
    return version == null ? "development" : version;
  }
}
