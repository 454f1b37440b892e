package org.trebleproof.shelf.item;

import java.math.BigInteger;
import java.util.Comparator;
import java.util.Locale;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.trebleproof.quantity.Refusal;

/** Names of coils: "grey 7" follows "grey 6", and comes before "grey 10". */
public final class CoilName {

  private static final int LONGEST = 100;
  private static final Pattern NUMBERED = Pattern.compile("(.*?)([0-9]{1,9})");
  private static final Pattern PIECE = Pattern.compile("[0-9]+|[^0-9]+");

  /** As a person orders names: numbers in them by their size. */
  public static final Comparator<String> ORDER = CoilName::compare;

  private CoilName() {}

  /**
   * A name as it is kept.
   *
   * @throws Refusal for one that cannot be
   */
  public static String checked(String name) {
    String plain = name.strip();
    if (plain.isEmpty() || plain.length() > LONGEST) {
      throw new Refusal("a coil's name has 1 to " + LONGEST + " signs: give it a shorter one.");
    }
    if (plain.codePoints().anyMatch(Character::isISOControl)) {
      throw new Refusal("a coil's name is one line of plain text: " + Refusal.quote(plain) + ".");
    }
    return plain;
  }

  /** The name itself if it is free, else the first free number behind it. */
  public static String free(String wanted, Set<String> taken) {
    String name = wanted;
    while (taken.contains(name)) {
      name = after(name);
    }
    return name;
  }

  /** The next name in a row. */
  public static String after(String name) {
    Matcher m = NUMBERED.matcher(name);
    if (!m.matches()) {
      return name + " 2";
    }
    String digits = m.group(2);
    return m.group(1)
        + String.format(Locale.ROOT, "%0" + digits.length() + "d", Long.parseLong(digits) + 1);
  }

  private static int compare(String a, String b) {
    Matcher one = PIECE.matcher(a);
    Matcher other = PIECE.matcher(b);
    while (one.find()) {
      if (!other.find()) {
        return 1;
      }
      String x = one.group();
      String y = other.group();
      boolean numbers = Character.isDigit(x.charAt(0)) && Character.isDigit(y.charAt(0));
      int order =
          numbers ? new BigInteger(x).compareTo(new BigInteger(y)) : x.compareToIgnoreCase(y);
      if (order != 0) {
        return order;
      }
    }
    return other.find() ? -1 : a.compareTo(b);
  }
}
