package org.trebleproof.bench;

import java.util.ArrayList;
import java.util.List;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.bench.job.Job;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Known;
import org.trebleproof.quantity.RowKey;
import org.trebleproof.quantity.Subject;
import org.trebleproof.quantity.Verdict;

/** Setups that a job describes and no capture has seen: what is said of them is predicted. */
final class UnrecordedSetups {

  private UnrecordedSetups() {}

  /** The result with every such number marked as derived, and a warning for each such setup. */
  static FitResult marked(FitResult result) {
    Job job = result.job();
    List<String> missing = job.unrecorded();
    if (missing.isEmpty() || job.recorded().isEmpty()) {
      return result;
    }
    List<Finding> findings = new ArrayList<>(result.verdict().findings());
    missing.forEach(name -> findings.add(finding(name)));
    return result
        .withRows(result.rows().map(r -> predicted(r.key(), missing) ? r.as(Known.DERIVED) : r))
        .withVerdict(new Verdict(findings));
  }

  private static boolean predicted(RowKey key, List<String> missing) {
    return key.subject().equals(Subject.CHANGE)
        || key.subject().kind() == Subject.Kind.SETUP && missing.contains(key.subject().name());
  }

  private static Finding finding(String setup) {
    return Finding.of(
        FindingCode.SETUP_NOT_RECORDED,
        "Setup \"" + setup + "\" was not recorded: all that is said of it is predicted.",
        "it rests on its parts and on the other captures",
        "Record it, or take the setup out of the job.");
  }
}
