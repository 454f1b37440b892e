package org.trebleproof.cli.command;

/** The version of this build. */
public final class Version {

  private Version() {}

  /** As the jar's manifest has it; a plain word where the classes do not come from a jar. */
  public static String text() {
    String version = Version.class.getPackage().getImplementationVersion();
    return version == null ? "development" : version;
  }
}
