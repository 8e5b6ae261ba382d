package sweepbook.cli;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.core.importer.Location;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;

/** Holds the arrows of the house: bytes, readings, findings, person; see DEVELOPERS.md. */
@AnalyzeClasses(
        packages = "sweepbook",
        importOptions = {ImportOption.DoNotIncludeTests.class, ArchitectureTest.NoSharedTests.class})
class ArchitectureTest {
    /** What tests share of another module comes as a jar. */
    static final class NoSharedTests implements ImportOption {
        @Override
        public boolean includes(Location location) {
            return !location.contains("-tests.jar");
        }
    }

    @ArchTest
    static final ArchRule acquisitionKnowsNobodyElse = classes()
            .that()
            .resideInAPackage("sweepbook.acquisition..")
            .should()
            .onlyDependOnClassesThat()
            .resideInAnyPackage(
                    "sweepbook.acquisition..",
                    "java..",
                    "com.fazecast.jSerialComm..",
                    "com.fasterxml.jackson..",
                    "org.slf4j..",
                    "jdk.net..");

    @ArchTest
    static final ArchRule analysisKnowsTracesAndMathematics = classes()
            .that()
            .resideInAPackage("sweepbook.analysis..")
            .should()
            .onlyDependOnClassesThat()
            .resideInAnyPackage("sweepbook.analysis..", "sweepbook.acquisition.trace", "java..", "org.hipparchus..");

    @ArchTest
    static final ArchRule analysisSeesNoFileClockOrThread = noClasses()
            .that()
            .resideInAPackage("sweepbook.analysis..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("java.io..", "java.nio..", "java.net..", "java.time..", "java.util.concurrent..")
            .orShould()
            .dependOnClassesThat()
            .haveFullyQualifiedName("java.lang.System")
            .orShould()
            .dependOnClassesThat()
            .haveFullyQualifiedName("java.lang.Thread");

    @ArchTest
    static final ArchRule theSimulatorKnowsWireTraceAndHead = classes()
            .that()
            .resideInAPackage("sweepbook.simulator..")
            .should()
            .onlyDependOnClassesThat()
            .resideInAnyPackage(
                    "sweepbook.simulator..",
                    "sweepbook.acquisition.trace",
                    "sweepbook.acquisition.wire",
                    "sweepbook.analysis.head",
                    "java..",
                    "org.hipparchus..");

    @ArchTest
    static final ArchRule packagesHaveNoCycles =
            slices().matching("sweepbook.(*).(*)..").should().beFreeOfCycles();
}
