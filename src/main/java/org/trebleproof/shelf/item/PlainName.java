package org.trebleproof.shelf.item;

import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Pattern;

/** Names of files that lie in a folder and nowhere else, on every system. */
public final class PlainName {

  private static final int LONGEST = 200;

  /** What leads elsewhere, or is no name on some system. */
  private static final Pattern ODD = Pattern.compile("[\\p{Cntrl}/\\\\:*?\"<>|]");

  private static final Pattern DEVICE =
      Pattern.compile("(con|prn|aux|nul|com[0-9]|lpt[0-9])(\\..*)?");

  private PlainName() {}

  /** What an exported folder holds beside the files of a measurement. */
  public static final List<String> OWN =
      List.of("coil.json", "job.json", "result.json", "guitar.json");

  /** Whether a name is one, and none of those that the program writes itself. */
  public static boolean isOne(String name) {
    String lower = name.toLowerCase(Locale.ROOT);
    return !name.isBlank()
        && name.length() <= LONGEST
        && !name.startsWith(".")
        && !name.endsWith(".")
        && !name.endsWith(" ")
        && !ODD.matcher(name).find()
        && !DEVICE.matcher(lower).matches()
        && !OWN.contains(lower);
  }

  /** A file's name as such a one. */
  public static String ofFile(String name) {
    String plain = ODD.matcher(name).replaceAll("_");
    return isOne(plain) ? plain : ("file " + plain).replaceAll("[. ]+$", "");
  }

  /** A file's name itself if it is free, else with the first free number before its ending. */
  public static String free(String wanted, Set<String> taken) {
    String name = wanted;
    while (taken.contains(name)) {
      int dot = name.lastIndexOf('.');
      name =
          dot < 1
              ? CoilName.after(name)
              : CoilName.after(name.substring(0, dot)) + name.substring(dot);
    }
    return name;
  }

  /** Someone's text as a piece of such a name. */
  public static String of(String text) {
    String plain = text.replaceAll("[^\\p{L}\\p{N} _-]", "_").strip();
    return plain.length() > 60 ? plain.substring(0, 60).strip() : plain;
  }
}
