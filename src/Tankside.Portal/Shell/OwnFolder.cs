namespace Tankside.Portal.Shell;

/// <summary>Folders that nobody but the portal's own user looks into: the embedded database holds signing keys, letters hold links that let in.</summary>
public static class OwnFolder
{
    /// <summary>One that is there already stays as it is.</summary>
    public static void Make(string folder)
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(folder);
        }
        else
        {
            Directory.CreateDirectory(folder, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }
    }
}
