package org.trebleproof.report.file;

import org.trebleproof.bench.answer.StrikeEvidence;
import org.trebleproof.json.JsonWriter;

/** The part of the result file that tells what was struck and heard. */
final class StrikesJson {

  private StrikesJson() {}

  static void write(JsonWriter json, StrikeEvidence evidence) {
    writeCaptures(json, evidence);
    json.object("strikes");
    if (evidence.moreToHalve().isPresent()) {
      json.number("moreToHalve", evidence.moreToHalve().getAsInt());
    } else {
      json.nothing("moreToHalve");
    }
    json.number("drowned", evidence.drowned());
    json.number("onMainsLines", evidence.atMains());
    json.object("scatter");
    json.number("strength", evidence.scatter().strength());
    json.number("pluckPlace", evidence.scatter().pluckPlace());
    json.number("partial", evidence.scatter().partial());
    json.end();
    json.texts("conditions", evidence.conditions());
    json.array("partials");
    for (StrikeEvidence.Partial partial : evidence.partials()) {
      json.object();
      json.number("note", partial.note());
      json.number("number", partial.number());
      json.number("hz", partial.hz());
      json.numbers("dB", partial.level());
      json.numbers("sd", partial.sd());
      json.end();
    }
    json.end();
    json.end();
  }

  private static void writeCaptures(JsonWriter json, StrikeEvidence evidence) {
    json.array("captures");
    for (StrikeEvidence.Capture capture : evidence.captures()) {
      json.object();
      json.text("id", capture.id());
      json.text("setup", capture.setup());
      json.text("sha256", capture.sha256());
      json.number("sampleRate", capture.sampleRate());
      json.number("bits", capture.bits());
      json.number("strikes", capture.found());
      json.number("used", capture.used());
      json.number("clipped", capture.clipped());
      json.number("doubled", capture.doubled());
      json.number("cutOff", capture.cutOff());
      json.array("notes");
      for (StrikeEvidence.Note note : capture.notes()) {
        json.object();
        json.number("hz", note.hz());
        json.number("strikes", note.strikes());
        json.number("inharmonicity", note.inharmonicity());
        json.end();
      }
      json.end();
      json.end();
    }
    json.end();
  }
}
