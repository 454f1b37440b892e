package org.trebleproof.cli;

/** Entry point of the command line. */
public final class Main {

  private Main() {}

  public static void main(String[] arguments) {
    System.out.println("trebleproof");
  }
}
