package selvage.house;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.ArchRule;
import java.util.List;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/** Imports point only downwards, and PDFBox stays inside the packages that touch PDF. */
class ImportDirectionTest {
  /** From the faces down to the vocabulary; packages of one rank may see each other. */
  private static final List<List<String>> RANKS =
      List.of(
          List.of("cli", "web", "review", "hotfolder"),
          List.of("workflow"),
          List.of("report"),
          List.of("comparison"),
          List.of("ledger"),
          List.of("score"),
          List.of("measurement"),
          List.of("sheet"),
          List.of("strip"),
          List.of("survey"),
          List.of("separation"),
          List.of("color"),
          List.of("cxf"),
          List.of("cgats"),
          List.of("ink"),
          List.of("finding"));

  private static final JavaClasses PROGRAM =
      new ClassFileImporter()
          .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
          .importPackages("selvage");

  @Test
  void imports_everyPackage_pointDownwards() {
    for (int rank = 1; rank < RANKS.size(); rank++) {
      String[] here = packages(RANKS.subList(rank, rank + 1));
      String[] above = packages(RANKS.subList(0, rank));
      ArchRule rule =
          noClasses()
              .that()
              .resideInAnyPackage(here)
              .should()
              .dependOnClassesThat()
              .resideInAnyPackage(above)
              .allowEmptyShould(true);
      rule.check(PROGRAM);
    }
  }

  @Test
  void pdfbox_outsideThePackagesThatTouchPdf_isUnknown() {
    noClasses()
        .that()
        .resideOutsideOfPackages("selvage.separation..", "selvage.sheet..")
        .and()
        .doNotHaveFullyQualifiedName("selvage.report.PdfPages")
        .should()
        .dependOnClassesThat()
        .resideInAPackage("org.apache.pdfbox..")
        .check(PROGRAM);
  }

  @Test
  void packages_all_haveARank() {
    TreeSet<String> unranked = new TreeSet<>();
    List<String> ranked = RANKS.stream().flatMap(List::stream).toList();
    for (JavaClass type : PROGRAM) {
      String[] parts = type.getPackageName().split("\\.", -1);
      if (parts.length < 2 || !ranked.contains(parts[1])) {
        unranked.add(type.getPackageName());
      }
    }
    assertThat(unranked).isEmpty();
  }

  private static String[] packages(List<List<String>> ranks) {
    return ranks.stream()
        .flatMap(List::stream)
        .map(name -> "selvage." + name + "..")
        .toArray(String[]::new);
  }
}
