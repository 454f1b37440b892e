package org.trebleproof.report.file;

import com.fasterxml.jackson.core.JsonGenerator;
import java.io.IOException;
import org.trebleproof.bench.answer.StrikeEvidence;

/** The part of the result file that tells what was struck and heard. */
final class StrikesJson {

  private StrikesJson() {}

  static void write(JsonGenerator json, StrikeEvidence evidence) throws IOException {
    writeCaptures(json, evidence);
    json.writeObjectFieldStart("strikes");
    if (evidence.moreToHalve().isPresent()) {
      json.writeNumberField("moreToHalve", evidence.moreToHalve().getAsInt());
    } else {
      json.writeNullField("moreToHalve");
    }
    json.writeNumberField("drowned", evidence.drowned());
    json.writeNumberField("onMainsLines", evidence.atMains());
    json.writeObjectFieldStart("scatter");
    ResultJson.writeNumber(json, "strength", evidence.scatter().strength());
    ResultJson.writeNumber(json, "pluckPlace", evidence.scatter().pluckPlace());
    ResultJson.writeNumber(json, "partial", evidence.scatter().partial());
    json.writeEndObject();
    json.writeArrayFieldStart("conditions");
    for (String condition : evidence.conditions()) {
      json.writeString(condition);
    }
    json.writeEndArray();
    json.writeArrayFieldStart("partials");
    for (StrikeEvidence.Partial partial : evidence.partials()) {
      json.writeStartObject();
      ResultJson.writeNumber(json, "note", partial.note());
      json.writeNumberField("number", partial.number());
      ResultJson.writeNumber(json, "hz", partial.hz());
      ResultJson.writeNumbers(json, "dB", partial.level());
      ResultJson.writeNumbers(json, "sd", partial.sd());
      json.writeEndObject();
    }
    json.writeEndArray();
    json.writeEndObject();
  }

  private static void writeCaptures(JsonGenerator json, StrikeEvidence evidence)
      throws IOException {
    json.writeArrayFieldStart("captures");
    for (StrikeEvidence.Capture capture : evidence.captures()) {
      json.writeStartObject();
      json.writeStringField("id", capture.id());
      json.writeStringField("setup", capture.setup());
      json.writeStringField("sha256", capture.sha256());
      ResultJson.writeNumber(json, "sampleRate", capture.sampleRate());
      json.writeNumberField("bits", capture.bits());
      json.writeNumberField("strikes", capture.found());
      json.writeNumberField("used", capture.used());
      json.writeNumberField("clipped", capture.clipped());
      json.writeNumberField("doubled", capture.doubled());
      json.writeNumberField("cutOff", capture.cutOff());
      json.writeArrayFieldStart("notes");
      for (StrikeEvidence.Note note : capture.notes()) {
        json.writeStartObject();
        ResultJson.writeNumber(json, "hz", note.hz());
        json.writeNumberField("strikes", note.strikes());
        ResultJson.writeNumber(json, "inharmonicity", note.inharmonicity());
        json.writeEndObject();
      }
      json.writeEndArray();
      json.writeEndObject();
    }
    json.writeEndArray();
  }
}
