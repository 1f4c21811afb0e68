/**
 * From ink planes to the {@link selvage.survey.Census} of a page's ink mixtures, with exact tints,
 * areas and colours. Areas are counted in samples and told in percent of the counted box.
 */
package selvage.survey;
