// SPDX-License-Identifier: MIT
using k8s;
using k8s.Models;
using System.Runtime.Versioning;
using SensorSim.Studies.Clusters;

namespace SensorSim.Studies.Tests.Clusters;

/// <summary>The manifest as a published client of the Kubernetes API reads it (package KubernetesClient): unknown fields are errors.</summary>
[TestFixture]
[Platform(Exclude = "Win", Reason = "The scripts are of a POSIX shell.")]
[UnsupportedOSPlatform("windows")]
public sealed class KubernetesManifestTests
{
    private static readonly ClusterJob s_job = new()
    {
        Command = ["sensorsim"],
        StudyPath = "/study/it's noise.toml",
        Folder = "/study/parts",
        PartCount = 12,
        CoresPerPart = 2,
    };

    [Test]
    public void Text_ReadStrictlyByAClientOfTheApi_IsAnIndexedJobWithAPodForEachPart()
    {
        V1Job job = KubernetesYaml.Deserialize<V1Job>(KubernetesManifest.Text(s_job, "study-noise", "registry.example/sensorsim:1", "studies"), strict: true);

        Assert.That((job.ApiVersion, job.Kind, job.Metadata.Name), Is.EqualTo(("batch/v1", "Job", "study-noise")));
        Assert.That((job.Spec.CompletionMode, job.Spec.Completions, job.Spec.Parallelism), Is.EqualTo(("Indexed", 12, 12)));
        Assert.That(job.Spec.BackoffLimitPerIndex, Is.EqualTo(SlurmScripts.MostRestarts));
        V1PodSpec pod = job.Spec.Template.Spec;
        Assert.That(pod.RestartPolicy, Is.EqualTo("Never"));
        Assert.That(pod.Containers.Single().VolumeMounts.Single().MountPath, Is.EqualTo(KubernetesManifest.MountPath));
        Assert.That(pod.Volumes.Single().PersistentVolumeClaim.ClaimName, Is.EqualTo("studies"));
        Assert.That(pod.Volumes.Single().Name, Is.EqualTo(pod.Containers.Single().VolumeMounts.Single().Name));
        Assert.That(pod.Containers.Single().Resources.Requests["cpu"].ToString(), Is.EqualTo("2"));
        Assert.That(pod.Containers.Single().Command.Take(2), Is.EqualTo(new[] { "/bin/sh", "-c" }));
    }

    [Test]
    public void Text_ItsCommand_MakesThePartAfterItsIndex()
    {
        V1Job job = KubernetesYaml.Deserialize<V1Job>(
            KubernetesManifest.Text(s_job with { Command = ["echo"] }, "study-noise", "image", "studies"), strict: true);
        string script = job.Spec.Template.Spec.Containers.Single().Command[2];

        (int code, string output) = Shell.Run(script, ("JOB_COMPLETION_INDEX", "4"));

        Assert.That(code, Is.Zero);
        Assert.That(output, Is.EqualTo("sweep /study/it's noise.toml --shard 5/12 --workers 2 --out /study/parts/part-5\n"));
    }

    [TestCase("Noise")]
    [TestCase("")]
    [TestCase("-x")]
    [TestCase("a b")]
    public void Text_NameThatKubernetesRefuses_IsRefused(string name) =>
        Assert.That(() => KubernetesManifest.Text(s_job, name, "image", "claim"), Throws.TypeOf<NotSupportedException>().With.Message.Contains("lower-case"));
}
