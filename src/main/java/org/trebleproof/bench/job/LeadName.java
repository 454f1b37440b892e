package org.trebleproof.bench.job;

import java.util.Optional;
import java.util.regex.Pattern;

/** A lead is called by its name in the job where that says what it is, such as "9 m lead". */
public final class LeadName {

  private static final Pattern SAYS_LEAD =
      Pattern.compile("(.*\\s)?(lead|cable|cord)", Pattern.CASE_INSENSITIVE | Pattern.DOTALL);

  private LeadName() {}

  /** The name without its article; empty where it does not say that this is a lead. */
  public static Optional<String> of(String part) {
    return SAYS_LEAD.matcher(part).matches() && !OwnName.is(part)
        ? Optional.of(part.replaceFirst("(?i)^the\\s+", ""))
        : Optional.empty();
  }
}
