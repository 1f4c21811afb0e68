/**
 * Control strips: standard strips from {@code strips/}, the choice and order of job patches, layout
 * in millimetres, and the strip files. Takes {@link selvage.survey.PageSurvey}s; knows no PDF.
 */
package selvage.strip;
