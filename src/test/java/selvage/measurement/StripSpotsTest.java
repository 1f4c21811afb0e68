package selvage.measurement;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import selvage.color.Lab;
import selvage.finding.Finding;
import selvage.strip.Strip;

class StripSpotsTest {
  private static final Lab PAPER = new Lab(95, 0, -2);

  @Test
  void of_solidAndTint_asTheStripHasThem() {
    StripSpots spots =
        spots("Dune Red", Map.of(100.0, new Lab(46, 60, 40), 50.0, new Lab(70, 30, 19)));
    assertThat(spots.findings()).isEmpty();
    assertThat(spots.inks().get("Dune Red").ramp())
        .containsEntry(100.0, new Lab(46, 60, 40))
        .containsEntry(50.0, new Lab(70, 30, 19));
  }

  /** From paper 95, 0, −2 to 70, 30, 18 is half the way: the solid is 45, 60, 38. */
  @Test
  void of_tintAlone_solidDrawnOut() {
    StripSpots spots =
        spots("Dune Red", Map.of(50.0, new Lab(70, 30, 18), 20.0, new Lab(84, 13, 6)));
    Lab solid = spots.inks().get("Dune Red").ramp().get(100.0);
    assertThat(solid.l()).isCloseTo(45, within(1e-9));
    assertThat(solid.a()).isCloseTo(60, within(1e-9));
    assertThat(solid.b()).isCloseTo(38, within(1e-9));
    assertThat(spots.findings()).extracting(Finding::code).containsExactly("spot-solid-drawn-out");
  }

  @Test
  void of_darkTint_solidNotBelowBlack() {
    Lab solid = spots("Deep", Map.of(50.0, new Lab(20, 0, 0))).inks().get("Deep").ramp().get(100.0);
    assertThat(solid.l()).isZero();
  }

  @Test
  void of_spotOnlyOverOthers_midGreyAndSaid() {
    Strip strip =
        StripFixture.empty()
            .job(
                "flat",
                Map.of("Dune Red", 50.0, "Black", 20.0),
                new Lab(50, 20, 10),
                "predicted",
                100)
            .build("KM7T-90QA", 1);
    StripSpots spots = StripSpots.of(List.of(strip), PAPER);
    assertThat(spots.inks()).containsKey("Dune Red");
    assertThat(spots.findings()).extracting(Finding::code).containsExactly("spot-not-known");
  }

  private static StripSpots spots(String name, Map<Double, Lab> tints) {
    StripFixture fixture = StripFixture.empty();
    tints.forEach(
        (tint, lab) ->
            fixture.job("spot-tint", Map.of(name, tint), lab, "library", 100.0 / tints.size()));
    return StripSpots.of(List.of(fixture.build("KM7T-90QA", 1)), PAPER);
  }
}
