package selvage.score;

import java.util.List;

/**
 * What happened to a print, as far as its readings tell.
 *
 * @param causes what was found, the greatest share first
 * @param readings how many printed patches it rests on
 * @param errorDe76 root mean square ΔE*ab between readings and aims
 * @param unexplainedDe76 the same of what the causes leave: noise of the readings, or something
 *     that the model does not know
 * @param unexplainedShare that part of the errors' sum of squares, 0 to 1
 * @param oddPatches ids of patches that lie far off what the causes account for; they were left out
 *     of the fit
 * @param words the same in plain words, a sentence each
 */
public record Diagnosis(
    List<FoundCause> causes,
    int readings,
    double errorDe76,
    double unexplainedDe76,
    double unexplainedShare,
    List<String> oddPatches,
    List<String> words) {
  public Diagnosis {
    causes = List.copyOf(causes);
    oddPatches = List.copyOf(oddPatches);
    words = List.copyOf(words);
    if (!(errorDe76 >= 0) || !(unexplainedDe76 >= 0) || !(unexplainedShare >= 0)) {
      throw new IllegalArgumentException("errors of " + errorDe76 + ", " + unexplainedDe76);
    }
  }
}
