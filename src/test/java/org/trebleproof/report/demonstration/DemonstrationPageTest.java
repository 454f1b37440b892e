package org.trebleproof.report.demonstration;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.Base64;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.trebleproof.audio.SoundFile;
import org.trebleproof.audio.WavWriter;
import org.trebleproof.bench.mod.guitar.SignalChain;
import org.trebleproof.bench.mod.guitar.TypedGuitars;
import org.trebleproof.quantity.Refusal;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

/** The page that is heard and turned, as a text. */
class DemonstrationPageTest {
  private static final String WIRING =
      "volume=250k,tone=250k,toneCapacitor=22n,cable=500p,input=1M";
  private static final int MEGABYTE = 1_000_000;

  @TempDir Path folder;

  private static String page(String title, Optional<CarriedStrike> strike) {
    SignalChain typed = TypedGuitars.single(WIRING);
    SignalChain named =
        new SignalChain(
            title,
            typed.coils(),
            typed.knowledge(),
            typed.slots(),
            typed.layouts(),
            typed.current(),
            List.of());
    return Demonstrated.changed(named, "volume=500k").page(strike);
  }

  private static Document parsed(String html) throws Exception {
    return DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(html)));
  }

  private CarriedStrike strike(double seconds, int rate) {
    float[] samples = new float[(int) (seconds * rate)];
    Random random = new Random(5);
    for (int i = 0; i < samples.length; i++) {
      samples[i] = (float) (0.2 * (2 * random.nextDouble() - 1));
    }
    Path file = folder.resolve("strike.wav");
    WavWriter.write(file, new float[][] {samples}, rate, WavWriter.Encoding.PCM24);
    return CarriedStrike.of(SoundFile.read(file));
  }

  @Test
  void isOneFileThatLoadsNothing() throws Exception {
    String html = page("Guitar", Optional.empty());
    Document document = parsed(html);
    NodeList all = document.getElementsByTagName("*");
    java.util.Set<String> ids = new java.util.HashSet<>();
    for (int i = 0; i < all.getLength(); i++) {
      Element e = (Element) all.item(i);
      assertFalse(e.hasAttribute("src") || e.hasAttribute("href") || e.hasAttribute("style"));
      for (int a = 0; a < e.getAttributes().getLength(); a++) {
        assertFalse(e.getAttributes().item(a).getNodeName().startsWith("on"), e.getTagName());
      }
      String id = e.getAttribute("id");
      assertTrue(id.isEmpty() || ids.add(id), "one element per id: " + id);
    }
    assertTrue(html.length() < MEGABYTE / 2, html.length() + " bytes");
    assertFalse(Pattern.compile("@[A-Z]+@").matcher(html).find(), "a place that was not filled");
  }

  /** The policy names what stands in the page, to the letter. */
  @Test
  void thePolicyLetsNothingElseRun() throws Exception {
    String html = page("Guitar", Optional.empty());
    Matcher policy =
        Pattern.compile("Content-Security-Policy\" content=\"([^\"]*)\"").matcher(html);
    assertTrue(policy.find());
    Matcher style = Pattern.compile("<style>(.*?)</style>", Pattern.DOTALL).matcher(html);
    Matcher script = Pattern.compile("<script>(.*?)</script>", Pattern.DOTALL).matcher(html);
    assertTrue(style.find() && script.find());
    assertEquals(
        "default-src 'none'; script-src '"
            + hash(script.group(1))
            + "'; style-src '"
            + hash(style.group(1))
            + "'; base-uri 'none'; form-action 'none'",
        policy.group(1));
    assertFalse(script.find(), "one script");
  }

  private static String hash(String text) throws Exception {
    byte[] sum = MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
    return "sha256-" + Base64.getEncoder().encodeToString(sum);
  }

  @Test
  void namesWithMarkupStayText() throws Exception {
    String nasty = "</script><b onclick=\"x\">&amp; ]]> @DATE@ \u2028";
    String html = page(nasty, Optional.empty());
    Document document = parsed(html);
    assertEquals(nasty, document.getElementsByTagName("h1").item(0).getTextContent());
    assertEquals(0, document.getElementsByTagName("b").getLength());
    Matcher data =
        Pattern.compile(
                "<script type=\"application/json\" id=\"guitar\">(.*?)</script>", Pattern.DOTALL)
            .matcher(html);
    assertTrue(data.find());
    JsonNode guitar = new ObjectMapper().readTree(data.group(1));
    assertEquals(nasty, guitar.get("title").asText());
  }

  @Test
  void theLongestRecordingStillMakesAPageOfThreeMegabytes() {
    String html = page("Guitar", Optional.of(strike(18, 48000)));
    assertTrue(html.length() < 3 * MEGABYTE, html.length() + " bytes");
    assertTrue(html.length() > 2 * MEGABYTE, html.length() + " bytes");
  }

  @Test
  void whatIsTooLongOrTooFastIsRefusedWithAWayOut() {
    Refusal tooLong = assertThrows(Refusal.class, () -> strike(19, 48000));
    assertEquals(
        "strike.wav: is longer than the 18 s that a page of 3 MB can carry: cut out a few strikes.",
        tooLong.getMessage());
    Refusal tooFast = assertThrows(Refusal.class, () -> strike(1, 192000));
    assertTrue(tooFast.getMessage().contains("convert the recording to 48 kHz"));
  }

  @Test
  void aCarriedStrikeIsAsLoudAsSixteenBitsAllow() {
    byte[] words = Base64.getDecoder().decode(strike(0.1, 48000).pcm());
    int most = 0;
    for (int i = 0; i < words.length; i += 2) {
      most = Math.max(most, Math.abs((short) (words[i] & 0xff | words[i + 1] << 8)));
    }
    assertEquals(32767, most);
  }

  @Test
  void withoutAScriptTheCurvesAreThoseOfThePrediction() throws Exception {
    Document document = parsed(page("Guitar", Optional.empty()));
    assertEquals(2, document.getElementsByTagName("svg").getLength());
    assertTrue(
        document.getElementsByTagName("p").item(0).getTextContent().startsWith("Volume pot 250k"));
  }
}
