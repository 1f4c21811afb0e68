package selvage.workflow;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import selvage.color.SpotInk;
import selvage.finding.Finding;
import selvage.strip.MergedCensus;
import selvage.strip.PageColors;
import selvage.survey.Census;
import selvage.survey.InkMap;
import selvage.survey.JobSurvey;
import selvage.survey.PageSurvey;

/**
 * What one strip stands for.
 *
 * @param page of the job, which bears the strip
 * @param census of the page, or of several merged
 * @param pages that it stands for
 * @param spots what is known of their spot inks
 * @param ink where the page bears ink; null where that is not known
 * @param title of the pages, for the label
 */
record StripShare(
    int page,
    Census census,
    List<PageColors> pages,
    Map<String, SpotInk> spots,
    InkMap ink,
    String title) {

  /**
   * The shares of a job.
   *
   * @param perJob one strip for all pages, on the first, instead of one a page
   * @param findings takes a note of each page without ink
   */
  static List<StripShare> of(JobSurvey survey, boolean perJob, List<Finding> findings) {
    List<PageSurvey> inked = new ArrayList<>();
    for (PageSurvey page : survey.pages()) {
      if (page.census().inkedPercent() > 0) {
        inked.add(page);
      } else {
        findings.add(
            Finding.note(
                "page-without-ink",
                "page " + page.page() + ": bears no ink within the counted area; not stamped"));
      }
    }
    String of = " of " + survey.job().pages();
    if (perJob && inked.size() > 1) {
      Map<String, SpotInk> spots = new HashMap<>();
      inked.forEach(page -> page.spots().forEach(spots::putIfAbsent));
      Census all = MergedCensus.of(inked.stream().map(PageSurvey::census).toList());
      return List.of(
          new StripShare(
              inked.get(0).page(),
              all,
              inked.stream().map(StripShare::colors).toList(),
              spots,
              inked.get(0).ink(),
              "for " + inked.size() + " pages" + of));
    }
    List<StripShare> shares = new ArrayList<>();
    for (PageSurvey page : inked) {
      shares.add(
          new StripShare(
              page.page(),
              page.census(),
              List.of(colors(page)),
              page.spots(),
              page.ink(),
              "page " + page.page() + of));
    }
    return shares;
  }

  private static PageColors colors(PageSurvey page) {
    return new PageColors(page.page(), page.dpi(), page.census());
  }
}
