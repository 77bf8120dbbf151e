// SPDX-License-Identifier: MIT
using System.Globalization;
using System.Text.Json;

namespace SensorSim.Studies.Clusters;

/// <summary>The manifest of an indexed job of Kubernetes: one index for each part.</summary>
/// <remarks>
/// Index i makes part i + 1. A pod that was killed is made again by the job, at most <see cref="SlurmScripts.MostRestarts"/> times for each index, and goes on
/// from its journal, because parts lie on a volume that outlives pods. Fields: Kubernetes API, batch/v1 Job, from memory; checked in a test against a
/// published client's types. Strings are written as JSON, which YAML takes.
/// </remarks>
public static class KubernetesManifest
{
    /// <summary>Where pods see the volume.</summary>
    public const string MountPath = "/study";

    /// <summary>The manifest.</summary>
    /// <param name="job">The job; its paths are those inside of the pods.</param>
    /// <param name="name">Name of the job: lower-case letters, digits and hyphens, at most 50 characters.</param>
    /// <param name="image">Image that holds the command.</param>
    /// <param name="claim">Persistent volume claim with the study file, mounted at <see cref="MountPath"/>.</param>
    /// <exception cref="NotSupportedException">The name is not one that Kubernetes takes.</exception>
    public static string Text(ClusterJob job, string name, string image, string claim)
    {
        ArgumentNullException.ThrowIfNull(job);
        ArgumentNullException.ThrowIfNull(name);
        if (name.Length is 0 or > 50 || name.Any(c => !char.IsAsciiLetterLower(c) && !char.IsAsciiDigit(c) && c != '-') || name[0] == '-' || name[^1] == '-')
        {
            throw new NotSupportedException($"\"{name}\" is no name for a job: lower-case letters, digits and hyphens, a letter or digit at either end, at most 50 characters.");
        }

        string count = job.PartCount.ToString(CultureInfo.InvariantCulture);
        string cores = job.CoresPerPart.ToString(CultureInfo.InvariantCulture);

        // A detector that did not answer (exit code 1) is a result; joining reports it.
        string script = $"part=$((JOB_COMPLETION_INDEX + 1)); {ShellWords.Quote(job.Command)} sweep {ShellWords.Quote(job.StudyPath)} --shard \"$part/{count}\" "
            + $"--workers {cores} --out {ShellWords.Quote(job.PartFolder(""))}\"$part\"; status=$?; [ \"$status\" = 1 ] && exit 0; exit \"$status\"";
        return $"""
            apiVersion: batch/v1
            kind: Job
            metadata:
              name: {Json(name)}
            spec:
              completionMode: Indexed
              completions: {count}
              parallelism: {count}
              backoffLimitPerIndex: {SlurmScripts.MostRestarts}
              maxFailedIndexes: 0
              template:
                spec:
                  restartPolicy: Never
                  containers:
                    - name: part
                      image: {Json(image)}
                      command: ["/bin/sh", "-c", {Json(script)}]
                      resources:
                        requests:
                          cpu: {Json(cores)}
                      volumeMounts:
                        - name: study
                          mountPath: {Json(MountPath)}
                  volumes:
                    - name: study
                      persistentVolumeClaim:
                        claimName: {Json(claim)}

            """.ReplaceLineEndings("\n");
    }

    private static string Json(string text) => JsonSerializer.Serialize(text, JsonText.Options);

    private static class JsonText
    {
        // Quotes and brackets of a shell command stay readable.
        public static readonly JsonSerializerOptions Options = new() { Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping };
    }
}
