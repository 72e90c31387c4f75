using Clackbeat.Sensing.Calibrating;
using Clackbeat.Site.Facts;
using Tomlyn;
using Tomlyn.Model;

namespace Clackbeat.Site.Calibrations;

/// <summary>Reads a calibration file; <see cref="CalibrationText"/> writes it. Its figures are SI, as their names say.</summary>
public static class CalibrationFile
{
    /// <summary>Reads a calibration file from disk.</summary>
    /// <exception cref="InputException">There is no such file, or its content can't stand.</exception>
    public static Calibration Load(string path)
    {
        if (!File.Exists(path))
        {
            throw InputException.Of("calibration.no-file", ("file", path));
        }

        return Parse(SmallFile.ReadText(path, Fact.Of("input.a-calibration-file")), path);
    }

    /// <summary>Reads the text of a calibration file.</summary>
    /// <param name="text">The content.</param>
    /// <param name="fileName">The name that messages show.</param>
    /// <exception cref="InputException">The content can't stand.</exception>
    public static Calibration Parse(string text, string fileName)
    {
        try
        {
            TomlTable root = TomlSerializer.Deserialize<TomlTable>(text) ?? throw InputException.Of("calibration.empty");
            CalibrationFields fields = new(root);
            if (fields.Text("format") != CalibrationText.Format)
            {
                throw InputException.Of("calibration.other-format", ("format", fields.Text("format")), ("known", CalibrationText.Format));
            }

            return fields.Calibration();
        }
        catch (Exception broken) when (broken is InputException or TomlException or InvalidCastException or OverflowException or ArgumentException)
        {
            throw InputException.Of(
                broken, "calibration.unusable", ("file", fileName), ("why", broken is InputException told ? told.What : Fact.Of("plain", ("what", broken.Message.ReplaceLineEndings(" ").TrimEnd('.')))));
        }
    }
}
