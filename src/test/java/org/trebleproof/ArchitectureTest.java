package org.trebleproof;

import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.fields;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.Architectures.layeredArchitecture;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import java.util.Arrays;
import java.util.Random;
import org.trebleproof.quantity.Finding;

/** Holds the floors of the house: who may use whom, and what the core never touches. */
@AnalyzeClasses(packages = "org.trebleproof", importOptions = ImportOption.DoNotIncludeTests.class)
final class ArchitectureTest {

  private static final String HOUSE = "org.trebleproof.";
  private static final String[] CORE = {
    HOUSE + "quantity..",
    HOUSE + "algebra..",
    HOUSE + "signal..",
    HOUSE + "circuit..",
    HOUSE + "fit.."
  };

  @ArchTest
  static final ArchRule aRoomUsesOnlyRoomsBelowIt =
      layeredArchitecture()
          .consideringOnlyDependenciesInLayers()
          .withOptionalLayers(true)
          .layer("quantity")
          .definedBy(HOUSE + "quantity..")
          .layer("algebra")
          .definedBy(HOUSE + "algebra..")
          .layer("file")
          .definedBy(HOUSE + "file..")
          .layer("json")
          .definedBy(HOUSE + "json..")
          .layer("signal")
          .definedBy(HOUSE + "signal..")
          .layer("circuit")
          .definedBy(HOUSE + "circuit..")
          .layer("fit")
          .definedBy(HOUSE + "fit..")
          .layer("audio")
          .definedBy(HOUSE + "audio..")
          .layer("fixture")
          .definedBy(HOUSE + "fixture..")
          .layer("bench")
          .definedBy(HOUSE + "bench..")
          .layer("shelf")
          .definedBy(HOUSE + "shelf..")
          .layer("report")
          .definedBy(HOUSE + "report..")
          .layer("cli")
          .definedBy(HOUSE + "cli..")
          .layer("desktop")
          .definedBy(HOUSE + "desktop..")
          .whereLayer("quantity")
          .mayNotAccessAnyLayer()
          .whereLayer("algebra")
          .mayNotAccessAnyLayer()
          .whereLayer("file")
          .mayOnlyAccessLayers("quantity")
          .whereLayer("json")
          .mayOnlyAccessLayers("quantity", "file")
          .whereLayer("signal")
          .mayOnlyAccessLayers("quantity", "algebra")
          .whereLayer("circuit")
          .mayOnlyAccessLayers("quantity")
          .whereLayer("fit")
          .mayOnlyAccessLayers("quantity", "algebra", "signal", "circuit")
          .whereLayer("audio")
          .mayOnlyAccessLayers("quantity", "file", "signal", "circuit")
          .whereLayer("fixture")
          .mayOnlyAccessLayers("quantity", "file", "json", "signal", "circuit", "fit", "audio")
          .whereLayer("bench")
          .mayOnlyAccessLayers(
              "quantity", "algebra", "file", "json", "signal", "circuit", "fit", "audio", "fixture")
          .whereLayer("shelf")
          .mayOnlyAccessLayers("quantity", "file", "json", "audio", "fixture", "bench")
          .whereLayer("report")
          .mayOnlyAccessLayers(
              "quantity",
              "file",
              "json",
              "signal",
              "circuit",
              "fit",
              "audio",
              "fixture",
              "bench",
              "shelf")
          .whereLayer("cli")
          .mayOnlyAccessLayers(
              "quantity",
              "file",
              "json",
              "signal",
              "circuit",
              "fit",
              "audio",
              "fixture",
              "bench",
              "shelf",
              "report")
          .whereLayer("desktop")
          .mayOnlyAccessLayers(
              "quantity",
              "file",
              "json",
              "signal",
              "circuit",
              "fit",
              "audio",
              "fixture",
              "bench",
              "shelf",
              "report")
          .because("a recording flows one way, from file to page, and nothing flows back");

  @ArchTest
  static final ArchRule theJobFileStandsOnItsOwn =
      noClasses()
          .that()
          .resideInAPackage(HOUSE + "bench.job..")
          .should()
          .dependOnClassesThat(
              resideInAPackage(HOUSE + "bench..")
                  .and(DescribedPredicate.not(resideInAPackage(HOUSE + "bench.job.."))))
          .because("a job says what was measured and knows nothing of what is made of it");

  @ArchTest
  static final ArchRule noCircleOfRooms =
      slices()
          .matching("org.trebleproof.(**)")
          .should()
          .beFreeOfCycles()
          .because("two rooms that need each other are one room");

  @ArchTest
  static final ArchRule theFacesAskForJobsNotForTheWayTheyAreWorkedOut =
      noClasses()
          .that()
          .resideInAnyPackage(HOUSE + "report..", HOUSE + "cli..", HOUSE + "desktop..")
          .should()
          .dependOnClassesThat(
              resideInAnyPackage(HOUSE + "bench.sweep..", HOUSE + "fit..")
                  .or(ownBusinessOf("bench.model", "FittedParts", "KnownPickup"))
                  .or(ownBusinessOf("bench.strike", "StrikeReading")))
          .because("how captures are read, fitted and checked is the bench's own business");

  @ArchTest
  static final ArchRule recordingsAreTakenApartBelowTheFaces =
      noClasses()
          .that()
          .resideInAnyPackage(HOUSE + "report..", HOUSE + "cli..", HOUSE + "desktop..")
          .should()
          .dependOnClassesThat(
              resideInAnyPackage(HOUSE + "signal.strike..", HOUSE + "signal.filter..")
                  .or(ownBusinessOf("signal.sweep", "SweepMeasurement")))
          .because("faces show what was found in a recording and do not look for it");

  @ArchTest
  static final ArchRule sweepsAndStrikesDoNotKnowEachOther =
      noClasses()
          .that()
          .resideInAPackage(HOUSE + "bench.sweep..")
          .should()
          .dependOnClassesThat(resideInAPackage(HOUSE + "bench.strike.."))
          .because("only a job knows of both ways to excite a pickup");

  @ArchTest
  static final ArchRule wordsKnowNoFiles =
      noClasses()
          .that()
          .resideInAPackage(HOUSE + "report.words..")
          .should()
          .dependOnClassesThat(resideInAnyPackage(HOUSE + "report.file..", HOUSE + "json.."))
          .because("a sentence is for a person");

  @ArchTest
  static final ArchRule theCoreKnowsNoFilesDevicesOrFaces =
      noClasses()
          .that()
          .resideInAnyPackage(CORE)
          .should()
          .dependOnClassesThat(
              resideInAnyPackage(
                  "java.io..",
                  "java.nio.file..",
                  "java.nio.channels..",
                  "java.net..",
                  "javax.sound..",
                  "java.awt..",
                  "javafx..",
                  "javax.swing..",
                  "java.util.logging..",
                  "picocli..",
                  "com.fasterxml..",
                  "org.jflac.."))
          .because("the core takes and returns arrays and records, so it can be lifted out");

  @ArchTest
  static final ArchRule theCoreAsksNoClock =
      noClasses()
          .that()
          .resideInAnyPackage(CORE)
          .should()
          .callMethod(System.class, "currentTimeMillis")
          .orShould()
          .callMethod(System.class, "nanoTime")
          .orShould()
          .dependOnClassesThat(resideInAPackage("java.time.."))
          .because("the same arrays must give the same answer at any hour");

  @ArchTest
  static final ArchRule chanceIsSeeded =
      noClasses()
          .should()
          .callConstructor(Random.class)
          .orShould()
          .callMethod(Math.class, "random")
          .because("a person who repeats a measurement's analysis must get the same numbers");

  @ArchTest
  static final ArchRule oneRoomPerLibrary =
      noClasses()
          .that(outside("signal"))
          .should()
          .dependOnClassesThat(resideInAnyPackage("org.jtransforms..", "org.visnow.."))
          .because("the packing of the FFT library's results is undone in one place");

  @ArchTest
  static final ArchRule thereIsOneWayToReadAndWriteJson =
      noClasses()
          .that(outside("json"))
          .should()
          .dependOnClassesThat(resideInAPackage("com.fasterxml.."))
          .because("what a number that is none becomes, and how a fault is said, is decided once");

  @ArchTest
  static final ArchRule soundFilesAreReadInAudio =
      noClasses()
          .that(outside("audio"))
          .should()
          .dependOnClassesThat(resideInAnyPackage("org.jflac..", "javax.sound.."))
          .because("what a sound file may do wrong is caught in one place");

  @ArchTest
  static final ArchRule theDataBaseIsTheStoresOwnBusiness =
      noClasses()
          .that(outside("shelf.store"))
          .should()
          .dependOnClassesThat(
              resideInAnyPackage(
                  "java.sql..", "javax.sql..", "org.jdbi..", "org.flywaydb..", "org.sqlite.."))
          .because("what has no shelf to do with loads nothing of it");

  @ArchTest
  static final ArchRule facesWriteThroughWhatKnowsTheInputs =
      noClasses()
          .that()
          .resideInAnyPackage(HOUSE + "cli..", HOUSE + "desktop.place..")
          .should()
          .dependOnClassesThat()
          .belongToAnyOf(org.trebleproof.file.WholeFile.class)
          .because("an output that would replace an input is refused in one place, FilesInUse");

  @ArchTest
  static final ArchRule theCommandLineStaysAtTheTop =
      noClasses()
          .that(outside("cli"))
          .should()
          .dependOnClassesThat(resideInAPackage("picocli.."))
          .because("commands are a thin face");

  @ArchTest
  static final ArchRule onlyTheCommandLineEndsTheProgram =
      noClasses()
          .that(outside("cli"))
          .should()
          .callMethod(System.class, "exit", int.class)
          .because("a library that exits takes its caller with it");

  @ArchTest
  static final ArchRule noStackTraceForPeople =
      noClasses()
          .should()
          .callMethod(Throwable.class, "printStackTrace")
          .because("a person is told one sentence: what is wrong and what to do");

  @ArchTest
  static final ArchRule onlyTheVerdictAsksHowGraveAFindingIs =
      noClasses()
          .that()
          .resideOutsideOfPackage(HOUSE + "quantity..")
          .should()
          .accessFieldWhere(
              JavaAccess.Predicates.targetOwner(JavaClass.Predicates.type(Finding.Severity.class)))
          .because("what findings come to is decided once, and all who show it say the same");

  @ArchTest
  static final ArchRule noSharedMutableState =
      fields()
          .that()
          .areStatic()
          .and()
          .doNotHaveModifier(com.tngtech.archunit.core.domain.JavaModifier.SYNTHETIC)
          .should()
          .beFinal()
          .because("what one job leaves behind must not reach the next");

  @ArchTest
  static final ArchRule namesSayWhatAClassIs =
      noClasses()
          .should()
          .haveNameMatching(".*(Utils?|Managers?|Helpers?|Misc|Common|Impl)(\\$.*)?")
          .orShould()
          .resideInAnyPackage("..util..", "..utils..", "..helper..", "..misc..", "..common..")
          .because("a class is named after its one reason to exist, in the trade's words");

  /** What a room has for its own floor alone: all but the classes that it shows to others. */
  private static DescribedPredicate<JavaClass> ownBusinessOf(String room, String... shown) {
    return resideInAPackage(HOUSE + room + "..")
        .and(
            DescribedPredicate.describe(
                "are not shown to other floors",
                c -> {
                  String name = c.getName().substring(c.getPackageName().length() + 1);
                  return Arrays.stream(shown)
                      .noneMatch(s -> name.equals(s) || name.startsWith(s + "$"));
                }));
  }

  private static DescribedPredicate<JavaClass> outside(String room) {
    return DescribedPredicate.not(resideInAPackage(HOUSE + room + ".."))
        .as("reside outside " + room);
  }
}
