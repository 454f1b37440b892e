package org.trebleproof.report.page;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.StringReader;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.trebleproof.bench.answer.FitResult;
import org.trebleproof.quantity.Finding;
import org.trebleproof.quantity.FindingCode;
import org.trebleproof.quantity.Verdict;
import org.trebleproof.report.ExampleResults;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

class HtmlPageTest {

  static List<FitResult> examples() {
    return List.of(ExampleResults.potSwap(), ExampleResults.bareCoil(), ExampleResults.refused());
  }

  @ParameterizedTest
  @MethodSource("examples")
  void isWellFormedAndCarriesEverything(FitResult result) throws Exception {
    String html = page(result);
    Document document = parsed(html);
    assertFalse(html.contains("<script"), "no scripts");
    assertFalse(
        Pattern.compile("(src|href)=|url\\((?!#)|@import").matcher(html).find(),
        "nothing is loaded from elsewhere");
    NodeList all = document.getElementsByTagName("*");
    HashSet<String> ids = new HashSet<>();
    for (int i = 0; i < all.getLength(); i++) {
      String id = ((Element) all.item(i)).getAttribute("id");
      assertTrue(id.isEmpty() || ids.add(id), "one element per id: " + id);
    }
  }

  @ParameterizedTest
  @MethodSource("examples")
  void everyDrawingSaysWhatItShows(FitResult result) throws Exception {
    NodeList drawings = parsed(page(result)).getElementsByTagName("svg");
    for (int i = 0; i < drawings.getLength(); i++) {
      Element svg = (Element) drawings.item(i);
      assertEquals("img", svg.getAttribute("role"));
      assertFalse(svg.getElementsByTagName("title").item(0).getTextContent().isBlank());
      String reading = svg.getElementsByTagName("desc").item(0).getTextContent();
      assertTrue(reading.endsWith("."), reading);
    }
  }

  @Test
  void drawsBeforeSolidAndAfterDashed() throws Exception {
    String html = page(ExampleResults.potSwap());
    assertTrue(html.contains("class=\"line before\" d="));
    assertTrue(html.contains("class=\"line after\" stroke-dasharray=\"7 4\""));
    assertTrue(html.contains("class=\"points after\""));
  }

  @Test
  void marksTheFrequencyAxisAsTheTradeDoes() throws Exception {
    Element levels = drawing(parsed(page(ExampleResults.potSwap())), "levels-t");
    List<String> ticks = new ArrayList<>();
    NodeList texts = levels.getElementsByTagName("text");
    for (int i = 0; i < texts.getLength(); i++) {
      Element text = (Element) texts.item(i);
      if (text.getAttribute("class").equals("tick middle")) {
        ticks.add(text.getTextContent());
      }
    }
    assertEquals(List.of("100", "200", "500", "1k", "2k", "5k", "10k Hz"), ticks);
  }

  @Test
  void neverDrawsARefusedCapture() throws Exception {
    String html = page(ExampleResults.refused());
    assertTrue(html.contains("No plot: capture after was refused."));
    assertTrue(html.contains("Next: Turn the input gain or the sweep down and record it again."));
    assertFalse(html.contains("after: device over reference channel"));
    assertFalse(html.contains("<table class=\"key\">"), "no numbers");
  }

  @Test
  void drawsNothingWhenTheErrorNamesNoCapture() throws Exception {
    FitResult good = ExampleResults.potSwap();
    FitResult refused =
        FitResult.of(
                good.job(),
                new Verdict(
                    List.of(
                        Finding.of(
                            FindingCode.NO_MODEL_FITS,
                            "No coil model fits.",
                            "",
                            "sweep it again"))))
            .withCaptures(good.captures());
    assertFalse(page(refused).contains("class=\"plot\""));
  }

  @Test
  void escapesWhatAJobFileSays() throws Exception {
    FitResult good = ExampleResults.potSwap();
    FitResult sly =
        FitResult.of(
                good.job(),
                new Verdict(
                    List.of(
                        Finding.of(
                            FindingCode.HUM, "<script>alert(\"&\")</script>\u0007", "<b>", "]]>"))))
            .withModel(good.model())
            .withRows(good.rows())
            .withDifferences(good.differences())
            .withCaptures(good.captures())
            .withSetupCurves(good.setups())
            .withTreble(good.treble())
            .withAdvice(good.advice());
    parsed(page(sly));
    assertFalse(page(sly).contains("<script"));
  }

  @Test
  void assumedNumbersLookAssumed() {
    String html = page(ExampleResults.potSwap());
    assertTrue(html.contains("<tr class=\"assumed\"><th scope=\"row\">winding capacitance</th>"));
    assertTrue(html.contains("<span class=\"assumed\">about 481k ±58k</span>"));
  }

  @Test
  void saysWhatIsNeededToRepeatIt() {
    FitResult swap = ExampleResults.potSwap();
    String html = page(swap);
    for (FitResult.CaptureFit capture : swap.captures()) {
      assertTrue(html.contains(capture.sha256()));
    }
    assertTrue(html.contains("version 0.1.0"));
    assertTrue(html.contains("before-1n.wav"));
    assertTrue(html.contains("48 kHz, 24 bit, 4 sweeps"));
    assertTrue(html.contains("solid core; reduced chi-square 1.04"));
  }

  @Test
  void emphasisKeepsUnitsWhole() {
    assertEquals(
        "at <b>6340 ±44 Hz</b>, <b>18.2 dB (18.0 to 18.3 dB)</b>; <b>−2.23 ±0.02 µS</b>",
        Emphasis.onNumbers("at 6340 ±44 Hz, 18.2 dB (18.0 to 18.3 dB); -2.23 ±0.02 µS"));
  }

  private static String page(FitResult result) {
    return HtmlPage.of(result, "0.1.0", "2026-11-25");
  }

  private static Element drawing(Document document, String titleId) {
    NodeList titles = document.getElementsByTagName("title");
    for (int i = 0; i < titles.getLength(); i++) {
      Element title = (Element) titles.item(i);
      if (title.getAttribute("id").equals(titleId)) {
        return (Element) title.getParentNode();
      }
    }
    throw new AssertionError("no drawing " + titleId);
  }

  private static Document parsed(String html) throws Exception {
    return DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(html)));
  }
}
